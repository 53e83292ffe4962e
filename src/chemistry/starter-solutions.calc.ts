// Silver baths, developers, fixers and varnish of the starter library. Ounces that weigh are taken to be
// avoirdupois, ounces that pour American, or imperial in British books.
import {
  drachms,
  grains,
  grams,
  liquidOf,
  millilitres,
  ounces,
  toTheOunce,
  weighed,
  type MixedKind,
  type StarterFormula,
  type StarterLine,
} from './starter-lines.calc.js';

const us = ounces('US');
const usDrachms = drachms('US');
const imperial = ounces('imperial');
const AVOIRDUPOIS = 'ounce avoirdupois';

type Told = Omit<StarterFormula, 'kind' | 'lines' | 'batch'>;
const solution =
  (kind: MixedKind) =>
  (told: Told, lines: StarterLine[]): StarterFormula => ({ ...told, kind, lines, batch: liquidOf(lines) });
const bath = solution('bath');
const developer = solution('developer');
const fixer = solution('fixer');
const varnish = solution('varnish');

const BATH_METHOD = [
  'Goggles and gloves. Dissolve the crystals in distilled water in clean glass.',
  'Stand it in the sun for a day, and filter.',
  'Nitric acid drop by drop, no more than reddens blue litmus slowly (Wilson); at once (Schriever): the books disagree. Never near alcohol or ether.',
  'Iodise it: leave a coated plate in it for several hours or overnight (Schriever).',
  'Measure the strength and write it on the tank.',
];
const BATH_LIFE =
  'A bath does not run out by its date: it is kept by measuring, topping up, sunning and rest.';

export const STARTER_BATHS: readonly StarterFormula[] = [
  bath(
    {
      key: 'bath-9-percent',
      name: 'Silver bath, 9 %',
      batchAsWritten: '1 L',
      ripenDays: 2,
      lifeDays: null,
      source: '"Wet plate", a typescript on Scribd (392894808): 9 % of silver nitrate',
      method: BATH_METHOD,
      note: `Taken as 90 g in a litre of water. ${BATH_LIFE}`,
    },
    [grams('silver nitrate', 90), millilitres('distilled water', 1000)],
  ),
  bath(
    {
      key: 'bath-schriever',
      name: 'Silver bath, 50 grains (Schriever)',
      batchAsWritten: 'by the ounce; a batch of 32 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: null,
      source:
        'J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), part 5',
      method: BATH_METHOD,
      note: `45 to 50 grains to the ounce, topped up below 45; Estabrooke has not under 50 for positives, 45 for negatives. ${BATH_LIFE}`,
    },
    [toTheOunce('silver nitrate', '50', '32'), us('distilled water', '32')],
  ),
  bath(
    {
      key: 'bath-wilson',
      name: 'Silver bath (Wilson)',
      batchAsWritten: '36 fl oz (US assumed)',
      ripenDays: 2,
      lifeDays: null,
      source: 'E. L. Wilson, Wilson’s Photographics (1881), par. 136',
      method: BATH_METHOD,
      note: `Three ounces: 36.5 grains to the ounce avoirdupois, 40 apothecaries’. Wilson also iodises with 2 grains of potassium iodide to each ounce of silver. ${BATH_LIFE}`,
    },
    [weighed('silver nitrate', '3', AVOIRDUPOIS), us('distilled water', '36')],
  ),
];

const DEVELOPER_METHOD = [
  'Dissolve the iron in the water and filter; a saturated solution is poured in as it is.',
  'Add the acid, then the alcohol. Nothing with cyanide in the room: the developer is acid.',
  'Date it. Warm weather wants more acid, cold less; more alcohol as the silver bath ages (Towler; Wilkinson).',
];
const DEVELOPER_LIFE =
  '"Acts best freshly prepared" (Every Boy’s Book); weeks to a few months, from memory: 60 days.';

export const STARTER_DEVELOPERS: readonly StarterFormula[] = [
  developer(
    {
      key: 'developer-towler-1',
      name: 'Iron developer No. 1 (Towler)',
      batchAsWritten: '4 fl oz of water (US assumed)',
      ripenDays: 0,
      lifeDays: 60,
      source:
        'J. Towler, The Silver Sunbeam (New York: Ladd, 1864), chapter XVI, No. 1, for ambrotypes and melainotypes',
      method: DEVELOPER_METHOD,
      note: `About 8.5 % of iron sulfate. ${DEVELOPER_LIFE}`,
    },
    [
      us('distilled water', '4'),
      weighed('ferrous sulfate heptahydrate', '3', 'drachm'),
      usDrachms('acetic acid, dilute', '3'),
      usDrachms('ethanol', '2'),
    ],
  ),
  developer(
    {
      key: 'developer-saturated',
      name: 'Iron developer from saturated solution',
      batchAsWritten: '43 1/2 fl oz (US assumed)',
      ripenDays: 0,
      lifeDays: 60,
      source: 'Photography (chestofbooks.com), "The Wet Plate Process, continued"',
      method: DEVELOPER_METHOD,
      note: DEVELOPER_LIFE,
    },
    [
      us('distilled water', '35'),
      us('ferrous sulfate, saturated solution', '5'),
      us('acetic acid, glacial', '2'),
      us('ethanol', '1.5'),
    ],
  ),
  developer(
    {
      key: 'developer-wilkinson',
      name: 'Iron developer (Wilkinson)',
      batchAsWritten: '85 fl oz (imperial assumed)',
      ripenDays: 0,
      lifeDays: 60,
      source: 'W. T. Wilkinson, Photo-Engraving, chapter on developing',
      method: DEVELOPER_METHOD,
      note: `Alcohol 1 ounce with a new bath, up to 5 as the bath ages. ${DEVELOPER_LIFE}`,
    },
    [
      imperial('distilled water', '70'),
      imperial('ferrous sulfate, saturated solution', '10'),
      imperial('acetic acid, glacial', '4'),
      imperial('ethanol', '1', '1 to 5 in the book'),
    ],
  ),
  developer(
    {
      key: 'developer-wilson',
      name: 'Iron developer (Wilson)',
      batchAsWritten: 'water to make 80 fl oz (US assumed)',
      ripenDays: 0,
      lifeDays: 60,
      source: 'E. L. Wilson, Wilson’s Photographics (1881), on fog',
      method: DEVELOPER_METHOD,
      note: DEVELOPER_LIFE,
    },
    [
      us('distilled water', '68', 'to make 80'),
      us('ferrous sulfate, saturated solution', '4'),
      us('methylated spirit', '4'),
      us('acetic acid, glacial', '4'),
    ],
  ),
  developer(
    {
      key: 'developer-every-boy',
      name: 'Iron developer (Every Boy’s Book)',
      batchAsWritten: '8 fl oz of water (imperial assumed)',
      ripenDays: 0,
      lifeDays: 30,
      source: 'Every Boy’s Book, "Photography"',
      method: DEVELOPER_METHOD,
      note: 'The scan prints "14" and "12" ounces: read as 1/4 and 1/2. "Acts best freshly prepared": a month is assumed.',
    },
    [
      imperial('distilled water', '8'),
      weighed('ferrous sulfate heptahydrate', '1/4', AVOIRDUPOIS),
      imperial('acetic acid, glacial', '1/4'),
      imperial('methylated spirit', '1/2', 'spirit'),
    ],
  ),
];

const HYPO_METHOD = [
  'Dissolve the crystals in warm water, let it cool, filter.',
  'Rinse plates of developer before they go in.',
];
const CYANIDE_METHOD = [
  'Only who is trained for it, never alone, nobody under 18; what to do in an emergency is settled before the bottle is opened.',
  'No acid, no developer, no silver bath open in the room. Gloves and goggles, exhaust on.',
  'Dissolve the cyanide in the water; label it, lock it away; plates are rinsed of developer before they go in.',
];
const FIXER_LIFE = 'By what it has fixed, not by its date; half a year is from memory.';

export const STARTER_FIXERS: readonly StarterFormula[] = [
  fixer(
    {
      key: 'fixer-hypo-20-percent',
      name: 'Hypo fixer, 20 %',
      batchAsWritten: '1 L',
      ripenDays: 0,
      lifeDays: 180,
      source: 'From memory: the usual strength today',
      method: HYPO_METHOD,
      note: FIXER_LIFE,
    },
    [grams('sodium thiosulfate pentahydrate', 200), millilitres('distilled water', 1000)],
  ),
  fixer(
    {
      key: 'fixer-hypo-schriever',
      name: 'Hypo fixer (Schriever)',
      batchAsWritten: '30 fl oz (US assumed)',
      ripenDays: 0,
      lifeDays: 180,
      source:
        'J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), par. 900',
      method: HYPO_METHOD,
      note: `About 16 %. ${FIXER_LIFE}`,
    },
    [weighed('sodium thiosulfate pentahydrate', '5', AVOIRDUPOIS), us('distilled water', '30')],
  ),
  fixer(
    {
      key: 'fixer-hypo-cooley',
      name: 'Strong hypo fixer (Cooley)',
      batchAsWritten: '5 fl oz (imperial assumed)',
      ripenDays: 0,
      lifeDays: 180,
      source: 'Cooley’s Cyclopaedia of Practical Receipts, 6th edition by R. V. Tuson, volume II',
      method: HYPO_METHOD,
      note: FIXER_LIFE,
    },
    [weighed('sodium thiosulfate pentahydrate', '5', AVOIRDUPOIS), imperial('distilled water', '5')],
  ),
  fixer(
    {
      key: 'fixer-cyanide-schriever',
      name: 'Cyanide fixer (Schriever)',
      batchAsWritten: '30 fl oz (US assumed)',
      ripenDays: 0,
      lifeDays: 180,
      source:
        'J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), par. 898',
      method: CYANIDE_METHOD,
      note: `About 3.2 %. Another book has three times as much, a dictionary 2 to 20 grains to the ounce by purity, later practice 1.2 to 1.5 % (from memory). ${FIXER_LIFE}`,
    },
    [weighed('potassium cyanide', '1', AVOIRDUPOIS), us('distilled water', '30')],
  ),
  fixer(
    {
      key: 'fixer-cyanide-dictionary',
      name: 'Weak cyanide fixer (Dictionary of Photography)',
      batchAsWritten: 'by the ounce; a batch of 20 fl oz (imperial assumed)',
      ripenDays: 0,
      lifeDays: 180,
      source: 'Dictionary of Photography, "Potassium cyanide"',
      method: CYANIDE_METHOD,
      note: `2 to 20 grains to the ounce by purity: 5 are taken. ${FIXER_LIFE}`,
    },
    [
      grains('potassium cyanide', '100', '5 grains to the ounce; 2 to 20 in the book'),
      imperial('distilled water', '20'),
    ],
  ),
];

export const STARTER_VARNISHES: readonly StarterFormula[] = [
  varnish(
    {
      key: 'varnish-sandarac',
      name: 'Sandarac varnish',
      batchAsWritten: 'about 250 mL',
      ripenDays: 2,
      lifeDays: 365,
      source: 'P. Nesmith, blog, 23 July 2007',
      method: [
        'Dissolve the gum in the alcohol over a day or two, shaking now and then; never over a flame.',
        'Add the oil, let it settle, filter twice.',
        'Varnishing warms plate and varnish: that flame never shares a room and hour with ether, collodion or mixing.',
      ],
      note: 'The blog adds 3 mL of chloroform and says that some leave it out: left out here. Sandarac can dissolve an image: try a spare plate. Ripening and life: from memory.',
    },
    [millilitres('ethanol', 220), grams('gum sandarac', 32), millilitres('lavender oil', 28)],
  ),
];
