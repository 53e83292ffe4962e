import { writeFileSync } from 'node:fs';
import { openTestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, openStarts, approve } from '../support/studio.js';
import { signedIn } from '../support/visitor.js';

it('looks', async () => {
  const house = await openTestHouse();
  try {
    const studio = await foundTestStudio(house, { shelf: { collodion: 30_000n } });
    const t0 = performance.now();
    const homes = [
      'York, United Kingdom',
      'Lerwick, United Kingdom',
      'Boston, Massachusetts',
      'Whitby, United Kingdom',
    ];
    const ids: string[] = [];
    for (let n = 0; n < 25; n++) {
      const whole = studio.sizes.whole.id,
        half = studio.sizes.half.id;
      const sitters = n % 3 === 0 ? ['Ann <b>', 'Bo'] : ['Cy'];
      const plates = [
        [{ plateSizeId: whole, sitters: [0] }],
        [
          { plateSizeId: whole, sitters: [0] },
          { plateSizeId: half, sitters: [0] },
        ],
        [1, 2, 3, 4].map(() => ({ plateSizeId: half, sitters: [0] })),
      ][n % 3]!;
      const { sittingId } = await askForSitting(house, studio, {
        name: `Person ${n}`,
        sitters,
        plates,
        home: homes[n % 4]!,
        hopes: 'x\ny',
        ...(n === 4
          ? { suits: { kind: 'these', days: ['2027-05-13'] } }
          : n === 5
            ? { suits: { kind: 'any', from: '2026-12-01', until: '2027-11-01' } }
            : {}),
      });
      ids.push(sittingId);
    }
    console.log('asked', performance.now() - t0);
    const starts = await openStarts(house, studio, { from: '2026-11-25', until: '2027-11-01' });
    console.log(starts.length, starts.slice(0, 5));
    await approve(
      house,
      studio,
      ids[0]!,
      (await openStarts(house, studio, { from: '2027-03-01', until: '2027-05-31', plates: 1 }))[0]!,
    );
    await house.work();
    const owner = await signedIn(house, studio, 'owner');
    for (const [name, path] of Object.entries({
      front: '',
      request: `/requests/${ids[1]}`,
      far: `/requests/${ids[5]}`,
      confirmed: `/requests/${ids[0]}`,
      mail: '/mail',
      shelf: '/shelf',
      calendar: '/calendar',
    })) {
      const t = performance.now();
      const answer = await owner.get(`/s/${studio.slug}/desk${path}`);
      const first = performance.now() - t;
      const t2 = performance.now();
      await owner.get(`/s/${studio.slug}/desk${path}`);
      console.log(name, answer.status, answer.html.length, first, performance.now() - t2);
      const css = /href="(\/static[^"]+css[^"]*)"/.exec(answer.html)![1]!;
      writeFileSync('/tmp/pd/app.css', (await owner.get(css)).html);
      writeFileSync(`/tmp/pd/desk-${name}.html`, answer.html.replace(css, '/tmp/pd/app.css'));
    }
  } finally {
    await house.close();
  }
}, 120000);
