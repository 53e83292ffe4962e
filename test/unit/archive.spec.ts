// A backup's file: opened by Debian's tar as well as by us, the same bytes each time, refused when it is not whole.
import { spawnSync } from 'node:child_process';
import { gzipSync } from 'node:zlib';
import { expect, it } from '@jest/globals';
import fc from 'fast-check';
import { pack } from 'tar-stream';
import { openArchive, packArchive } from '../../src/backup/archive.js';
import { csv } from '../../src/lib/csv.js';

const entries = new Map([
  ['manifest.json', Buffer.from('{"format":1}\n')],
  ['tables/contact.jsonl', Buffer.from('{"name":"Linnea Harrow"}\n'.repeat(2000))],
  ['empty', Buffer.alloc(0)],
]);

it('holds what was put in, byte for byte, and is the same each time', async () => {
  const bytes = await packArchive(entries);
  expect(await openArchive(bytes)).toEqual(entries);
  expect((await packArchive(entries)).equals(bytes)).toBe(true);
});

it('is opened by the tar program of the machine', async () => {
  const input = await packArchive(entries);
  const list = spawnSync('tar', ['-tzf', '-'], { input, encoding: 'utf8' });
  expect(list.stdout.trim().split('\n')).toEqual([...entries.keys()]);
  const one = spawnSync('tar', ['-xzOf', '-', 'tables/contact.jsonl'], { input });
  expect(one.stdout.equals(entries.get('tables/contact.jsonl') ?? Buffer.alloc(0))).toBe(true);
});

it('is refused when it is cut off anywhere', async () => {
  const bytes = await packArchive(entries);
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: bytes.length - 1 }), async (length) => {
      await expect(openArchive(bytes.subarray(0, length))).rejects.toThrow();
    }),
    { numRuns: 60 },
  );
});

it.each(['../outside', '/etc/passwd', 'a/../../b', 'UPPER', 'twice'])(
  'is refused with a name such as %s',
  async (name) => {
    const tar = pack();
    tar.entry({ name: 'twice' }, 'one');
    tar.entry({ name }, 'two');
    tar.finalize();
    const parts: Buffer[] = [];
    for await (const part of tar) parts.push(part as Buffer);
    await expect(openArchive(gzipSync(Buffer.concat(parts)))).rejects.toThrow('what no backup holds');
  },
);

it('is refused when it would fill the machine', async () => {
  const bytes = await packArchive(new Map([['big', Buffer.alloc(5_000_000)]]));
  await expect(openArchive(bytes, 1_000_000)).rejects.toThrow('larger than');
});

it('writes tables as RFC 4180 has them, and no cell that a spreadsheet would reckon', () => {
  // section 2, rules 5 to 7
  expect(
    csv(
      ['a', 'b'],
      [
        ['x', 'he said "no"'],
        ['1,5', 'two\r\nlines'],
      ],
    ),
  ).toBe('\uFEFFa,b\r\nx,"he said ""no"""\r\n"1,5","two\r\nlines"\r\n');
  expect(csv(['a'], [['=1+1'], ['+44'], ['-1'], ['@x']])).toBe("\uFEFFa\r\n'=1+1\r\n'+44\r\n'-1\r\n'@x\r\n");
});
