// The invented studio of the demo: who it is, what is on its shelf, who asked and what was answered.
// Dates are weeks from the first start, so the demo is always three months into its history.

export const STUDIO = {
  slug: 'kittiwake-yard',
  name: 'Kittiwake Yard',
  welcome:
    'A north-window studio on the harbour. On Fridays we make portraits on glass, one plate at a time, by the light of the day. The running series is “Hands of the Harbour”: people who work on the water.',
  address: 'Kittiwake Yard, Harbour Steps',
  email: 'desk@kittiwake-yard.example',
  telephone: '01632 960417',
  zone: 'Europe/London',
  lat: 54.49,
  lon: -0.61,
  windowKind: 'north window',
  lightFloorDegrees: 10,
  referenceSeconds: 6,
  referenceAltitudeDegrees: 45,
  exposureCapSeconds: 20,
  horizonMonths: 12,
  leastNoticeDays: 3,
  reserveQuantity: 'ninety',
} as const;

export const OWNER = {
  role: 'owner',
  name: 'Wren Hallgarth',
  email: 'wren@kittiwake-yard.example',
  password: 'silver-and-salt',
} as const;
export const ASSISTANT = {
  role: 'assistant',
  name: 'Tobias Marrick',
  email: 'tobias@kittiwake-yard.example',
  password: 'ether-and-glass',
} as const;

/** Fridays; wall times in minutes after midnight. */
export const RHYTHM = {
  weekday: 5,
  starts: [9 * 60 + 30, 11 * 60 + 15, 13 * 60, 14 * 60 + 45],
  firstPlateMinutes: 75,
  furtherPlateMinutes: 25,
  furtherSitterMinutes: 10,
  changeoverMinutes: 30,
  mostSittings: 4,
  mostPlates: 10,
  heldBack: 1,
  heldBackDays: 14,
};

/** The owner is there on every day; Tobias helps on Fridays, but not in the Fridays so many weeks from now. */
export const HELPER = { weekdays: [5], awayWeeks: [13, 14, 22, 23] };

/** Two weeks of the next August, and a Saturday so many weeks from now. */
export const SUMMER_CLOSURE = { month: 8, from: 2, until: 15, title: 'Summer' };
export const EXTRA_SATURDAY = { week: 21, starts: [10 * 60, 12 * 60] };

const usual = {
  firstPlateMinutes: null,
  plates: 1,
  weekdays: [] as number[],
  deposit: '',
  yearlyQuota: null,
};
export const KINDS = {
  portrait: {
    ...usual,
    position: 1,
    name: 'Portrait',
    offered: 'public',
    fee: '£160 a plate',
    deposit: '£40',
    keepsPlate: 'sitter',
  },
  series: {
    ...usual,
    position: 2,
    name: 'Hands of the Harbour',
    offered: 'public',
    fee: 'no fee',
    keepsPlate: 'series',
    yearlyQuota: 24,
  },
  again: { ...usual, position: 3, name: 'Return sitting', offered: 'owner', fee: '', keepsPlate: 'sitter' },
  test: {
    ...usual,
    position: 4,
    name: 'Test plate',
    offered: 'owner',
    firstPlateMinutes: 40,
    fee: '',
    keepsPlate: 'studio',
  },
} as const;

/** A day on which somebody sits and the room cannot be used after all: they are to be moved. */
export const ROOF = { week: 20, title: 'The roof is mended' };

export type Outcome =
  | { kind: 'waiting' }
  /** On the waiting list, with the owner's reason for a mark. */
  | { kind: 'on list'; priority?: string; hardship?: string }
  /** Offered a place two days ago, or so many hours; or twice before, and never answered. */
  | { kind: 'offered' | 'ran out'; week: number; start: number; hoursAgo?: number }
  | { kind: 'confirmed'; week: number; start: number }
  | { kind: 'declined'; message: string }
  | { kind: 'withdrawn' }
  | { kind: 'given back'; week: number; start: number };

export interface Story {
  name: string;
  /** As the gazetteer finds it. */
  home: string;
  reach?: 'telephone' | 'letter';
  /** Sitters; without it the contact sits. */
  sitters?: string[];
  /** Plate sizes, each with the positions of those on it. */
  plates?: [size: 'whole' | 'half', ...sitters: number[]][];
  /** The kind asked for; without it a portrait. */
  kind?: keyof typeof KINDS;
  /** Ages of the sitters, adult where none is said. */
  bands?: ('adult' | '8 to 14' | 'under 8')[];
  hopes: string;
  anything?: string;
  access?: string;
  brings?: string;
  guardian?: { name: string; relation: string; reach: string };
  /** Weeks before the first start that they asked. */
  askedWeeksAgo: number;
  /** Weeks from now between which any Friday suits. */
  suits: [from: number, until: number];
  outcome: Outcome;
}

const waiting: Outcome = { kind: 'waiting' };
const onList: Outcome = { kind: 'on list' };
const confirmed = (week: number, start: number): Outcome => ({ kind: 'confirmed', week, start });

export const STORIES: Story[] = [
  // Sat already, or soon will.
  {
    name: 'Marit Solheim',
    home: 'Bergen, Norway',
    hopes: 'A portrait with my net needle.',
    askedWeeksAgo: 30,
    suits: [-13, -8],
    outcome: confirmed(-12, 1),
  },
  {
    name: 'Gideon Thackray',
    home: 'Scarborough, United Kingdom',
    kind: 'series',
    hopes: 'For the harbour series: forty years on a coble.',
    askedWeeksAgo: 28,
    suits: [-12, -6],
    outcome: confirmed(-9, 0),
  },
  {
    name: 'Oona Kerrigan',
    home: 'Limerick, Ireland',
    hopes: 'One plate for my mother.',
    askedWeeksAgo: 27,
    suits: [-10, -4],
    outcome: confirmed(-7, 2),
  },
  {
    name: 'Pascal Verhoeven',
    home: 'Ostend, Belgium',
    sitters: ['Pascal Verhoeven', 'Lieve Verhoeven'],
    plates: [['whole', 0, 1]],
    hopes: 'The two of us on one plate.',
    askedWeeksAgo: 26,
    suits: [-8, -3],
    outcome: confirmed(-5, 1),
  },
  {
    name: 'Ishbel Rennie',
    home: 'Aberdeen, United Kingdom',
    hopes: 'I mend nets, and my hands show it.',
    askedWeeksAgo: 24,
    suits: [-4, 20],
    outcome: confirmed(10, 1),
  },
  {
    name: 'Casper Lindqvist',
    home: 'Gothenburg, Sweden',
    hopes: 'A portrait before I turn fifty.',
    askedWeeksAgo: 23,
    suits: [10, 26],
    outcome: confirmed(13, 0),
  },
  {
    name: 'Nell Oyston',
    home: 'York, United Kingdom',
    plates: [
      ['whole', 0],
      ['half', 0],
    ],
    hopes: 'One to keep and a small one to give away.',
    askedWeeksAgo: 22,
    suits: [8, 24],
    outcome: confirmed(14, 2),
  },
  {
    name: 'Bertram Quill',
    home: 'Newcastle upon Tyne, United Kingdom',
    hopes: 'With my melodeon, if it can be done.',
    askedWeeksAgo: 20,
    suits: [10, 30],
    outcome: confirmed(16, 1),
  },
  {
    name: 'Yuki Hamasaki',
    home: 'Vancouver, Canada',
    hopes: 'I am walking the coast and will be in town that week.',
    anything: 'I cannot climb more than a few steps.',
    askedWeeksAgo: 20,
    suits: [18, 22],
    outcome: confirmed(20, 1),
  },
  {
    name: 'Agnes Moorcroft',
    home: 'Leeds, United Kingdom',
    reach: 'telephone',
    hopes: 'My granddaughter says I should.',
    askedWeeksAgo: 18,
    suits: [14, 34],
    outcome: confirmed(18, 0),
  },
  {
    name: 'Florian Brandl',
    home: 'Salzburg, Austria',
    hopes: 'A whole plate, in my work coat.',
    askedWeeksAgo: 17,
    suits: [20, 30],
    outcome: confirmed(24, 2),
  },
  {
    name: 'Siobhan Tierney',
    home: 'Cork, Ireland',
    sitters: ['Siobhan Tierney', 'Maeve Tierney', 'Ronan Tierney'],
    bands: ['adult', '8 to 14', 'under 8'],
    guardian: { name: 'Siobhan Tierney', relation: 'mother', reach: '01632 960233' },
    brings: 'The children’s striped jerseys.',
    plates: [
      ['whole', 0, 1, 2],
      ['half', 1],
      ['half', 2],
    ],
    hopes: 'All three of us, then the two children one by one.',
    askedWeeksAgo: 16,
    suits: [26, 34],
    outcome: confirmed(28, 1),
  },
  // Answered otherwise, or given up.
  {
    name: 'Dorian Pell',
    home: 'London, United Kingdom',
    hopes: 'A picture for a record sleeve by next week.',
    askedWeeksAgo: 11,
    suits: [-10, -8],
    outcome: {
      kind: 'declined',
      message:
        'Everything before spring is given, and a plate needs its own day. Please ask again for the bright months.',
    },
  },
  {
    name: 'Hester Vane',
    home: 'Bristol, United Kingdom',
    hopes: 'A birthday plate.',
    askedWeeksAgo: 10,
    suits: [6, 12],
    outcome: { kind: 'withdrawn' },
  },
  {
    name: 'Ruben Castell',
    home: 'Girona, Spain',
    hopes: 'A portrait of my hands only.',
    askedWeeksAgo: 19,
    suits: [14, 22],
    outcome: { kind: 'given back', week: 17, start: 2 },
  },
  // Waiting for an answer.
  {
    name: 'Elspeth Garrow',
    home: 'Inverness, United Kingdom',
    hopes: 'I have kept bees for thirty years.',
    askedWeeksAgo: 12,
    suits: [12, 40],
    outcome: waiting,
  },
  {
    name: 'Jonas Weidlich',
    home: 'Hamburg, Germany',
    kind: 'series',
    hopes: 'A pilot’s portrait for the harbour series.',
    askedWeeksAgo: 12,
    suits: [14, 30],
    outcome: { kind: 'ran out', week: 18, start: 2 },
  },
  {
    name: 'Tamsin Roe',
    home: 'Penzance, United Kingdom',
    plates: [['half', 0]],
    hopes: 'A small plate, in my oilskins.',
    askedWeeksAgo: 11,
    suits: [20, 36],
    outcome: onList,
  },
  {
    name: 'Anselm Brook',
    home: 'Durham, United Kingdom',
    hopes: 'A quiet portrait.',
    askedWeeksAgo: 11,
    suits: [10, 30],
    outcome: { kind: 'on list', priority: 'His boat is sold in spring.' },
  },
  {
    name: 'Freya Dunstan',
    home: 'Lerwick, United Kingdom',
    sitters: ['Freya Dunstan', 'Old Magnus Dunstan'],
    plates: [
      ['whole', 1],
      ['whole', 0, 1],
    ],
    hopes: 'My grandfather while he can still make the journey.',
    anything: 'He is 88.',
    access: 'He cannot climb steps and sits better than he stands.',
    brings: 'His old spyglass.',
    askedWeeksAgo: 10,
    suits: [16, 28],
    outcome: waiting,
  },
  {
    name: 'Malachy Burke',
    home: 'Dublin, Ireland',
    hopes: 'Lifeboat crew, in the yellow coat if it comes out.',
    askedWeeksAgo: 10,
    suits: [13, 39],
    outcome: onList,
  },
  {
    name: 'Petra Novotná',
    home: 'Brno, Czechia',
    hopes: 'I learn the process myself and would like to be on the other side once.',
    askedWeeksAgo: 9,
    suits: [22, 30],
    outcome: waiting,
  },
  {
    name: 'Wilfred Askew',
    home: 'Hull, United Kingdom',
    reach: 'letter',
    hopes: 'A plate to leave to the maritime room.',
    askedWeeksAgo: 9,
    suits: [12, 44],
    outcome: { kind: 'on list', hardship: 'Can travel with a helper only, who is free on few days.' },
  },
  {
    name: 'Coralie Aubin',
    home: 'Saint-Malo, France',
    hopes: 'With my sextant.',
    askedWeeksAgo: 8,
    suits: [24, 34],
    outcome: { kind: 'offered', week: 26, start: 1 },
  },
  {
    name: 'Desmond Achterberg',
    home: 'Rotterdam, Netherlands',
    hopes: 'A whole plate, hands and face.',
    askedWeeksAgo: 8,
    suits: [15, 26],
    outcome: onList,
  },
  {
    name: 'Lowri Penhallow',
    home: 'Aberystwyth, United Kingdom',
    hopes: 'I row. My shoulders are the point.',
    askedWeeksAgo: 8,
    suits: [18, 32],
    outcome: waiting,
  },
  {
    name: 'Sunniva Eide',
    home: 'Stavanger, Norway',
    sitters: ['Sunniva Eide', 'Torvald Eide'],
    plates: [['whole', 0, 1]],
    hopes: 'Our wedding year.',
    askedWeeksAgo: 7,
    suits: [26, 38],
    outcome: waiting,
  },
  {
    name: 'Barnaby Flint',
    home: 'Whitehaven, United Kingdom',
    reach: 'telephone',
    hopes: 'A crabber’s portrait.',
    askedWeeksAgo: 7,
    suits: [11, 40],
    outcome: onList,
  },
  {
    name: 'Ottilie Krone',
    home: 'Lübeck, Germany',
    hopes: 'A portrait with my cello bow.',
    askedWeeksAgo: 6,
    suits: [23, 33],
    outcome: waiting,
  },
  {
    name: 'Silas Greaves',
    home: 'Sheffield, United Kingdom',
    reach: 'telephone',
    hopes: 'My grandfather sat for one in 1911.',
    askedWeeksAgo: 6,
    suits: [12, 24],
    // open for ten days by the rule of the list: it runs out tomorrow, or on Monday
    outcome: { kind: 'offered', week: 14, start: 0, hoursAgo: 10 * 24 - 20 },
  },
  {
    name: 'Ingrid Maas',
    home: 'Middelburg, Netherlands',
    plates: [
      ['half', 0],
      ['half', 0],
    ],
    hopes: 'Two small ones, one smiling if it can be held.',
    askedWeeksAgo: 5,
    suits: [20, 40],
    outcome: waiting,
  },
  {
    name: 'Cormac Whelan',
    home: 'Belfast, United Kingdom',
    kind: 'series',
    hopes: 'Ship’s carpenter, for the series.',
    askedWeeksAgo: 5,
    suits: [14, 34],
    outcome: onList,
  },
  {
    name: 'Adaeze Nwosu',
    home: 'Boston, Massachusetts',
    hopes: 'A plate of me as I am, on the trip I promised myself.',
    askedWeeksAgo: 4,
    suits: [28, 36],
    outcome: waiting,
  },
  {
    name: 'Rufus Ainslie',
    home: 'Edinburgh, United Kingdom',
    hopes: 'A portrait with my dog, if she holds.',
    anything: 'The dog will not hold. I know.',
    askedWeeksAgo: 4,
    suits: [12, 30],
    outcome: waiting,
  },
  {
    name: 'Hannelore Wirth',
    home: 'Basel, Switzerland',
    hopes: 'A whole plate in a dark dress; tell me what to wear.',
    askedWeeksAgo: 3,
    suits: [22, 40],
    outcome: waiting,
  },
  {
    name: 'Joss Carradine',
    home: 'Kendal, United Kingdom',
    hopes: 'For my father.',
    askedWeeksAgo: 3,
    suits: [13, 45],
    outcome: waiting,
  },
  {
    name: 'Mirela Dobre',
    home: 'Brighton, United Kingdom',
    hopes: 'I restore boats and would like my hands in it.',
    askedWeeksAgo: 2,
    suits: [17, 40],
    outcome: waiting,
  },
  {
    name: 'Percival Stott',
    home: 'Manchester, United Kingdom',
    reach: 'telephone',
    hopes: 'One plate, no fuss.',
    askedWeeksAgo: 2,
    suits: [12, 48],
    outcome: waiting,
  },
  {
    name: 'Aiko Brandt',
    home: 'Düsseldorf, Germany',
    hopes: 'A first portrait on glass.',
    askedWeeksAgo: 1,
    suits: [25, 45],
    outcome: waiting,
  },
  {
    name: 'Thea Lomax',
    home: 'Whitstable, United Kingdom',
    hopes: 'Oyster knife in hand.',
    askedWeeksAgo: 1,
    suits: [15, 42],
    outcome: waiting,
  },
];
