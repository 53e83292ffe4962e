// Not checked by a native reader. Sizes of plates and sources keep their own names.
import type { chemistry } from '../en/chemistry.js';
import { frenchPrinted } from './printed.js';

export const frenchChemistry: typeof chemistry = {
  title: 'Verre et solutions pour des plaques',
  titleOf: (plates) => `Ce qu’il faut pour ${plates === 1 ? 'une plaque' : `${plates} plaques`}`,
  lead: 'Combien de verre, de collodion, de révélateur, de fixateur, de vernis et de nitrate d’argent demande un nombre de plaques au collodion humide.',
  another: 'D’autres plaques',
  size: 'Format de plaque',
  sizeOf: (line) => `Format ${line}`,
  moreSizes: 'Plus de formats',
  ownSize: 'Mon propre format, en millimètres',
  own: 'Mon propre format',
  width: 'Largeur',
  height: 'Hauteur',
  keepers: 'Combien seront gardées ?',
  keepersHint: 'De bonnes plaques, à la fin ; celles qui échouent sont comptées en plus.',
  plates: 'plaques',
  madeBy: 'Qui fait les plaques ?',
  makers: {
    sittings: 'Une personne qui en a la pratique',
    beginners: 'Des débutants, comme dans un cours',
  },
  bottles: 'Et ce qui entre dans les flacons',
  bottlesHint:
    'D’après des formules telles qu’elles ont été imprimées ; chacune a sa source dans la réponse.',
  mixedBy: (solution) => `${solution} préparé selon`,
  notAsked: 'Pas demandé',
  reckon: 'Calculer',
  of: {
    collodion: 'Collodion',
    developer: 'Révélateur',
    fixer: 'Fixateur',
    varnish: 'Vernis',
    'silver nitrate': 'Nitrate d’argent',
    'silver nitrate in the film': 'Nitrate d’argent dans la couche',
  },
  sheets: (size) => `Plaques de verre, ${size}`,
  pieces: (count) => `${count} ${count === '1' ? 'pièce' : 'pièces'}`,
  table: {
    ready: 'Ce qu’il faut avoir prêt',
    bottles: 'Ce qui entre dans les flacons',
    film: 'Du nitrate d’argent, la part de la couche',
    taken: 'Pris par les halogénures',
    what: 'Quoi',
    heads: ['Minimum', 'Probable', '9 fois sur 10', 'Maximum'],
    key: 'Minimum : chaque plaque réussit du premier coup. Probable : comme la plupart des jours. 9 fois sur 10 : assez neuf fois sur dix. Maximum : pour être tranquille.',
  },
  printed: frenchPrinted,
  kept: (ofHundred, stopAfter, source) =>
    `Sur cent plaques, ${ofHundred} sont gardées${stopAfter === null ? '. ' : `, et après ${stopAfter === 1 ? 'un essai' : `${stopAfter} essais`} pour une plaque on s’arrête. `}${source}`,
  caution:
    'Le nitrate d’argent, l’éther, le collodion, les sels de cadmium et certains fixateurs peuvent rendre aveugle, brûler, empoisonner ou prendre feu. Ces chiffres ne sont pas un mode d’emploi : suivez la fiche de données de sécurité de votre fournisseur et les règles de votre lieu, et travaillez avec une personne qui en a la pratique.',
  cyanide:
    'Le cyanure peut tuer, par la bouche, par la peau et par les voies respiratoires. Il ne doit jamais entrer en contact avec un acide, et le révélateur en est un. L’hyposulfite fait le même travail ; c’est le fixateur de tout cours.',
  reckoning: [
    'Toutes les plaques sont comptées comme faites le même jour. Chaque quantité est la surface de tous les essais, multipliée par ce que prend un pouce carré.',
    'Minimum : chaque plaque réussit au premier essai, avec la plus petite dépense. Probable : le nombre médian d’essais, avec la dépense habituelle.',
    '9 fois sur 10 : assez dans neuf cas sur dix, avec la dépense habituelle. Maximum : ces mêmes essais, avec la plus grande dépense.',
    'Les essais suivent la loi binomiale négative : chacun a la même chance d’être gardé, quoi qu’il se soit passé avant. Un mauvais jour, les plaques échouent ensemble, et il en faut plus.',
    'Les plaques au-dessous de 4 x 5 pouces sont comptées d’après leur surface aussi, bien que les bords des petites plaques en prennent sans doute davantage. Le métal est compté comme le verre : aucune différence n’a été trouvée publiée.',
    'Le nitrate d’argent est ce qui quitte le bain : ce que prennent les halogénures de la couche, et ce qui reste sur la plaque et s’en va avec elle. Il sert à savoir combien de cristaux acheter.',
    'Ce qu’un bain doit contenir pour couvrir une plaque, ce qui reste dans les béchers et les filtres, et les plaques d’essai viennent en plus.',
  ],
};
