// The pages of bringing in a diary, in the states that look different.
import type { PageState } from './every-page.js';

const ALL = '/s/:slug/desk/settings/bring-in';

export const BRING_IN_PAGES: PageState[] = [
  { route: ALL, is: 'with nothing yet', as: 'owner', path: ({ empty }) => `${empty}/desk/settings/bring-in` },
  {
    route: ALL,
    is: 'with something brought in, and sent empty',
    as: 'owner',
    path: ({ home }) => `${home}/desk/settings/bring-in`,
    act: (page) => page.getByRole('button', { name: 'See what is understood' }).click(),
    wrong: true,
  },
  {
    route: `${ALL}/draft/:id`,
    is: 'with a line that wants another look and cells that were cleaned',
    as: 'owner',
    path: ({ bringIn }) => bringIn,
    act: (page) => page.getByText('cleaned, filled in or left as text').click(),
  },
  {
    route: `${ALL}/draft/:id`,
    is: 'ready to come in, a line left out',
    as: 'owner',
    path: ({ bringIn }) => bringIn,
    act: async (page) => {
      await page.getByLabel('Leave out line 3').check();
      await page.getByRole('button', { name: 'Look again' }).click();
    },
  },
];
