// The pages of formulas in the states that look different, and what fills them.
import { FormulasService } from '../../src/stock/formulas.service.js';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import type { PageState } from './every-page.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

const FORMULAS = '/s/:slug/desk/shelf/formulas';
const under = (path: string) => `${FORMULAS}${path}`;

export const FORMULA_PAGES: PageState[] = [
  {
    route: FORMULAS,
    is: 'with two of them',
    as: 'assistant',
    path: ({ home }) => `${home}/desk/shelf/formulas`,
  },
  { route: FORMULAS, is: 'with none', as: 'owner', path: ({ empty }) => `${empty}/desk/shelf/formulas` },
  {
    route: under('/library'),
    is: 'as it is printed',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/formulas/library`,
  },
  {
    route: under('/library/:key'),
    is: 'of a collodion with cadmium, to be taken',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/formulas/library/collodion-wilson-131`,
  },
  {
    route: under('/new'),
    is: 'sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/shelf/formulas/new`,
    act: (page) => page.getByRole('button', { name: 'Save this formula', exact: true }).click(),
    wrong: true,
  },
  { route: under('/:id'), is: 'for the owner', as: 'owner', path: ({ formula }) => formula },
  { route: under('/:id'), is: 'for the assistant', as: 'assistant', path: ({ formula }) => formula },
  { route: under('/:id/change'), is: 'filled in', as: 'owner', path: ({ formula }) => `${formula}/change` },
  {
    route: under('/:id/bench-card'),
    is: 'of a collodion with ether on the shelf',
    as: 'assistant',
    path: ({ formula }) => `${formula}/bench-card?batch=250`,
  },
  {
    route: under('/:id/bench-card'),
    is: 'of the cyanide fixer, for a batch that cannot be read',
    as: 'owner',
    path: ({ cyanide }) => `${cyanide}/bench-card?batch=lots`,
    wrong: true,
  },
];

/** Two formulas of the library, one of them with a bottle of ether to mix it from. */
export async function takeFormulas(house: TestHouse, { id, slug, owner, items }: TestStudio) {
  const formulas = house.app.get(FormulasService);
  const take = async (starterKey: string, itemId: string) => {
    const { formulaId } = await formulas.take(id, owner, { starterKey, itemId });
    return `/s/${slug}/desk/shelf/formulas/${formulaId}`;
  };
  const formula = await take('collodion-estabrooke-p29', items.collodion.id);
  const cyanide = await take('fixer-cyanide-schriever', items.fixer.id);
  const all = await house.db.inStudio(id, (tx) => house.app.get(StockService).items(tx));
  const ether = all.find((item) => item.substance === 'diethyl ether')?.id;
  await house.app.get(ShelfService).receive(id, owner, { itemId: ether, quantity: '200 ml' });
  return { formula, cyanide };
}
