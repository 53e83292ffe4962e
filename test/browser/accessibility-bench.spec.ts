// The pages of bench, shelf, plates, teaching, mail and settings, looked at by everybody.
import { lookAt } from '../support/every-look.js';
import { IS_OF_THE_BENCH, PAGE_STATES } from '../support/every-page.js';

/** What axe leaves undecided, by rule and element, and what we found when we looked ourselves. */
const JUDGED = {
  'color-contrast: .bath-chart text':
    'Grams stand left of and plates below the drawing, in the same grey as hours elsewhere.',
  'color-contrast: .bottles > li > a':
    'The names stand left of the amounts in the colours of all links, and nothing lies over them.',
  'color-contrast: .label-drawing text': 'Black letters on white paper, and nothing lies over them.',
  'color-contrast: .rota-chart text':
    'Names and hours stand above and left of the drawing; the number of a turn is paper on ink, as all inked things.',
  'color-contrast: .stock-chart text':
    'Months and amounts stand below and left of the drawing, in the same grey.',
};

lookAt(PAGE_STATES.filter(IS_OF_THE_BENCH), JUDGED);
