// The pages of all plates, the back of one, labels, series and lists for an archive in the states that look different.
import type { Page } from 'playwright-core';
import { HandOverService } from '../../src/plates/hand-over.service.js';
import { SeriesService } from '../../src/plates/series.service.js';
import type { PageState, Places } from './every-page.js';
import type { TestHouse } from './house.js';
import { writePlate } from './plates-made.js';
import type { TestStudio } from './studio.js';

const PLATES = '/s/:slug/desk/plates';
const owner = 'owner' as const;
const press = (name: string) => (page: Page) => page.getByRole('button', { name, exact: true }).click();
const follow = (name: string) => (page: Page) =>
  page.getByRole('link', { name, exact: true }).first().click();
const at =
  (more = '') =>
  ({ home }: Places) =>
    `${home}/desk/plates${more}`;

export const BOOK_PAGES: PageState[] = [
  ...(['owner', 'assistant'] as const).map((as) => ({
    route: PLATES,
    is: `with plates kept and struck, for the ${as}`,
    as,
    path: at(),
  })),
  { route: PLATES, is: 'with no plate yet', as: owner, path: ({ empty }) => `${empty}/desk/plates` },
  ...[901, 902].map((number) => ({
    route: `${PLATES}/:number`,
    is: number === 901 ? 'of somebody, on a list for an archive' : 'typed in by mistake',
    as: owner,
    path: at(`/${number}`),
  })),
  {
    route: `${PLATES}/:number`,
    is: 'with a name that is too long',
    as: owner,
    path: at('/901'),
    act: async (page) => {
      await page.getByLabel('Names, as they want them').fill('x'.repeat(301));
      await press('Save this')(page);
    },
    wrong: true,
  },
  { route: `${PLATES}/labels`, is: 'to choose plates', as: owner, path: at('/labels') },
  {
    route: `${PLATES}/labels`,
    is: 'with a sheet that is too wide',
    as: owner,
    path: at('/labels'),
    act: async (page) => {
      await page.getByText('Change the sheet').click();
      await page.getByLabel('How many side by side').fill('9');
      await press('Save the sheet')(page);
    },
    wrong: true,
  },
  {
    route: `${PLATES}/labels/print`,
    is: 'with a label',
    as: owner,
    path: at('/labels/print?plate=901'),
  },
  {
    route: `${PLATES}/fields`,
    is: 'with a new one sent empty',
    as: owner,
    path: at('/fields?form=new'),
    act: press('Add this'),
    wrong: true,
  },
  {
    route: `${PLATES}/series`,
    is: 'with one begun and the form for another',
    as: owner,
    path: at('/series?form=new'),
  },
  {
    route: `${PLATES}/series/:id`,
    is: 'of one',
    as: owner,
    path: at('/series'),
    act: (page) => page.getByRole('link', { name: /^Change this.*Ropewalk$/ }).click(),
  },
  {
    route: `${PLATES}/hand-over`,
    is: 'with one begun, and another sent empty',
    as: owner,
    path: at('/hand-over'),
    act: press('Begin this list'),
    wrong: true,
  },
  {
    route: `${PLATES}/hand-over/:id`,
    is: 'with a plate on it and one that may not go',
    as: owner,
    path: at('/hand-over'),
    act: follow('Saltmarsh Archive'),
  },
];

/** A plate of a series on a list for an archive, one that was struck, and one whose sitter has not agreed. */
export async function fillBook(house: TestHouse, studio: TestStudio, sittingId: string): Promise<void> {
  const { id: studioId, owner: who } = studio;
  const series = { name: 'Ropewalk', about: 'Those who twist rope.', target: '40' };
  const id = await house.app.get(SeriesService).save(studioId, who, null, series);
  const plate = await writePlate(house, studio, { number: 901, series: { id, number: 1 } });
  await writePlate(house, studio, { number: 902, struck: true });
  await writePlate(house, studio, { number: 903, sittingId });
  const lists = house.app.get(HandOverService);
  const list = await lists.begin(studioId, who, { takenBy: 'Saltmarsh Archive', note: '' });
  await lists.add(studioId, who, list, { plates: plate, what: 'plate' });
}
