// Not checked by a native reader. What stands with printed formulas and figures of use, by its English, part by part:
// names, ingredients, notes, and where a figure is from. Books and their authors keep their names.
const PARTS: Readonly<Record<string, string>> = {
  // formulas
  'Ferrotype collodion (Schriever)': 'Collodion pour ferrotypes (Schriever)',
  'Positive collodion (Estabrooke)': 'Collodion positif (Estabrooke)',
  'Negative collodion C (Estabrooke)': 'Collodion négatif C (Estabrooke)',
  'Quick collodion (Estabrooke, p. 29)': 'Collodion rapide (Estabrooke, p. 29)',
  'Portrait collodion (Wilson)': 'Collodion à portraits (Wilson)',
  'Collodion for hot weather (O’Neil)': 'Collodion pour temps chaud (O’Neil)',
  'Collodion of the encyclopaedia (Chambers)': 'Collodion de l’encyclopédie (Chambers)',
  'Cadmium collodion (Cooley)': 'Collodion au cadmium (Cooley)',
  'Zinc collodion (Wilkinson)': 'Collodion au zinc (Wilkinson)',
  'Iron developer No. 1 (Towler)': 'Révélateur au fer n° 1 (Towler)',
  'Iron developer from saturated solution': 'Révélateur au fer, à partir d’une solution saturée',
  'Iron developer (Wilkinson)': 'Révélateur au fer (Wilkinson)',
  'Iron developer (Wilson)': 'Révélateur au fer (Wilson)',
  'Iron developer (Every Boy’s Book)': 'Révélateur au fer (Every Boy’s Book)',
  'Hypo fixer, 20 %': 'Fixateur à l’hyposulfite, 20 %',
  'Hypo fixer (Schriever)': 'Fixateur à l’hyposulfite (Schriever)',
  'Strong hypo fixer (Cooley)': 'Fixateur à l’hyposulfite, concentré (Cooley)',
  'Cyanide fixer (Schriever)': 'Fixateur au cyanure (Schriever)',
  'Weak cyanide fixer (Dictionary of Photography)': 'Fixateur au cyanure, faible (Dictionary of Photography)',
  'Sandarac varnish': 'Vernis à la sandaraque',
  // what goes into them
  Ether: 'Éther (oxyde d’éthyle)',
  'Alcohol (ethanol)': 'Alcool (éthanol)',
  'Gun-cotton (pyroxylin)': 'Coton-poudre (pyroxyline)',
  'Cadmium bromide, anhydrous': 'Bromure de cadmium anhydre',
  'Cadmium iodide': 'Iodure de cadmium',
  'Ammonium iodide': 'Iodure d’ammonium',
  'Copper(II) bromide': 'Bromure de cuivre(II)',
  'Potassium bromide': 'Bromure de potassium',
  'Potassium iodide': 'Iodure de potassium',
  'Ammonium bromide': 'Bromure d’ammonium',
  'Celloidin, cakes': 'Celloïdine, en pains',
  'Zinc bromide': 'Bromure de zinc',
  'Zinc iodide': 'Iodure de zinc',
  'Distilled water': 'Eau distillée',
  'Iron sulfate (ferrous sulfate, heptahydrate)': 'Sulfate de fer(II) (sulfate ferreux heptahydraté)',
  'Acetic acid of the old shops (about 30 %)': 'Acide acétique des anciennes officines (environ 30 %)',
  'Saturated solution of iron sulfate': 'Solution saturée de sulfate de fer(II)',
  'Acetic acid, glacial': 'Acide acétique glacial (cristallisable)',
  'Methylated spirit': 'Alcool dénaturé (alcool à brûler)',
  'Hypo (sodium thiosulfate, pentahydrate)': 'Hyposulfite (thiosulfate de sodium pentahydraté)',
  'Potassium cyanide': 'Cyanure de potassium',
  'Gum sandarac': 'Gomme sandaraque',
  'Oil of lavender': 'Essence de lavande',
  'Silver nitrate': 'Nitrate d’argent',
  // notes of formulas
  'The line with the alcohol was missing in the copy that was read: as much as of ether is assumed.':
    'La ligne de l’alcool manquait dans l’exemplaire qui a été lu : il en est supposé autant que d’éther.',
  'The book does not say which cadmium bromide: anhydrous is assumed; as tetrahydrate weigh 26 % more for the same bromide.':
    'Le livre ne dit pas quel bromure de cadmium : il est supposé anhydre ; tétrahydraté, pesez 26 % de plus pour le même bromure.',
  'Ripening and life: from memory, for quick mixes with ammonium or potassium salts.':
    'Maturation et durée : de mémoire, pour des mélanges rapides aux sels d’ammonium ou de potassium.',
  'Cotton 5 to 6 grains to the ounce: the middle is taken.':
    'Coton, 5 à 6 grains par once : le milieu est pris.',
  'Ripen a day or two, or mix with old; when deep red it has lost its speed, and a little of it is blended into fresh (p. 27).':
    'À laisser mûrir un jour ou deux, ou à mêler à du vieux ; rouge foncé, il a perdu sa rapidité, et on en ajoute un peu au frais (p. 27).',
  'Life: from memory.': 'Durée : de mémoire.',
  'Ready in a few hours and improves with age.': 'Prêt en quelques heures, et meilleur avec l’âge.',
  'Workshop Receipts, 4th series, has the same salts with alcohol 10 + 5 and ether 5 ounces: one of the two swapped them.':
    'Workshop Receipts, 4e série, a les mêmes sels avec 10 + 5 onces d’alcool et 5 d’éther : l’un des deux les a intervertis.',
  'The note tells no cotton: 5 to 6 grains to the ounce is usual (Estabrooke, p. 16).':
    'La note ne dit rien du coton : 5 à 6 grains par once sont l’usage (Estabrooke, p. 16).',
  'Ether and alcohol in equal parts.': 'Éther et alcool à parts égales.',
  'A potassium collodion is usable after a few hours (Wilson, par. 131).':
    'Un collodion au potassium peut servir après quelques heures (Wilson, par. 131).',
  'Keep it two days before use; less to be relied on when kept long: two months are assumed.':
    'À garder deux jours avant de s’en servir ; moins sûr s’il est gardé longtemps : deux mois sont supposés.',
  'From memory cadmium alone wants weeks and keeps a year: the book is followed.':
    'De mémoire, le cadmium seul demande des semaines et se garde un an : on suit le livre.',
  'Stand a week; it improves up to six months, then blend it with new.':
    'À laisser reposer une semaine ; il s’améliore pendant six mois, puis se mêle à du neuf.',
  'Made for line work.': 'Fait pour la reproduction au trait.',
  'A British book: by imperial ounces it is 4 % stronger.':
    'Un livre britannique : en onces britanniques, c’est 4 % plus fort.',
  'About 8.5 % of iron sulfate.': 'Environ 8,5 % de sulfate de fer(II).',
  '"Acts best freshly prepared" (Every Boy’s Book); weeks to a few months, from memory: 60 days.':
    'Agit le mieux fraîchement préparé (Every Boy’s Book) ; de quelques semaines à quelques mois, de mémoire : 60 jours.',
  'Alcohol 1 ounce with a new bath, up to 5 as the bath ages.':
    'Alcool, 1 once avec un bain neuf, jusqu’à 5 quand le bain vieillit.',
  'The scan prints "14" and "12" ounces: read as 1/4 and 1/2.':
    'La copie imprime « 14 » et « 12 » onces : lu comme 1/4 et 1/2.',
  '"Acts best freshly prepared": a month is assumed.':
    'Agit le mieux fraîchement préparé : un mois est supposé.',
  'By what it has fixed, not by its date; half a year is from memory.':
    'D’après ce qu’il a fixé, non d’après sa date ; six mois, de mémoire.',
  'About 16 %.': 'Environ 16 %.',
  'About 3.2 %.': 'Environ 3,2 %.',
  'Another book has three times as much, a dictionary 2 to 20 grains to the ounce by purity, later practice 1.2 to 1.5 % (from memory).':
    'Un autre livre en a trois fois plus, un dictionnaire 2 à 20 grains par once selon la pureté, l’usage plus récent 1,2 à 1,5 % (de mémoire).',
  '2 to 20 grains to the ounce by purity: 5 are taken.':
    '2 à 20 grains par once selon la pureté : 5 sont pris.',
  'The blog adds 3 mL of chloroform and says that some leave it out: left out here.':
    'Le blog ajoute 3 mL de chloroforme et dit que certains l’omettent : omis ici.',
  'Sandarac can dissolve an image: try a spare plate.':
    'La sandaraque peut dissoudre une image : essayez sur une plaque perdue.',
  'Ripening and life: from memory.': 'Maturation et durée : de mémoire.',
  'From memory: the usual strength today': 'De mémoire : le titre habituel d’aujourd’hui',
  // where figures of use are from
  'From memory: 3 to 5 mL stay on a 4 x 5 in plate or dry away, the rest goes back into a bottle.':
    'De mémoire : 3 à 5 mL restent sur une plaque de 4 x 5 pouces ou sèchent, le reste retourne dans un flacon.',
  'From memory: 20 to 30 mL on a 4 x 5 in plate, 60 to 90 mL on 8 x 10 in.':
    'De mémoire : 20 à 30 mL sur une plaque de 4 x 5 pouces, 60 à 90 mL sur 8 x 10 pouces.',
  'J. B. Schriever (ed.), Complete Self-Instructing Library of Practical Photography (1909), "Wet Plate Process", par. 915, has 3 to 5 oz without the size of the plate.':
    'J. B. Schriever (éd.), Complete Self-Instructing Library of Practical Photography (1909), « Wet Plate Process », par. 915, a 3 à 5 onces, sans le format de la plaque.',
  'Assumption: one litre for twenty 4 x 5 in plates.':
    'Supposition : un litre pour vingt plaques de 4 x 5 pouces.',
  'No plates per litre were found published; reckoned from silver at a working limit of 2 g in a litre (from memory), 17 to 60 plates.':
    'Aucun nombre de plaques par litre n’a été trouvé publié ; calculé d’après l’argent, avec une limite de 2 g par litre (de mémoire) : 17 à 60 plaques.',
  'From memory: 2 to 3 mL stay on a 4 x 5 in plate.':
    'De mémoire : 2 à 3 mL restent sur une plaque de 4 x 5 pouces.',
  'Low: 0.18 g per 4 x 5 in, 0.31 g per 5 x 7 in, 0.72 g per 8 x 10 in by titration over 23 plates; B. Cuyler, "Amount of Silver Nitrate Used Per Plate", UV Photographics blog, 14 January 2026.':
    'Minimum : 0,18 g par 4 x 5 pouces, 0,31 g par 5 x 7 pouces, 0,72 g par 8 x 10 pouces, par titrage sur 23 plaques ; B. Cuyler, « Amount of Silver Nitrate Used Per Plate », blog UV Photographics, 14 janvier 2026.',
  "High: 1,920 grains for 180 plates of 7 1/2 x 7 1/2 in; E. L. Wilson, Wilson's Photographics (1881).":
    'Maximum : 1 920 grains pour 180 plaques de 7 1/2 x 7 1/2 pouces ; E. L. Wilson, Wilson’s Photographics (1881).',
  'Likely: the middle, an assumption.': 'Probable : le milieu, une supposition.',
  'Reckoned from two formulas, if all halide reacts.':
    'Calculé d’après deux formules, si tout l’halogénure réagit.',
  'Low: E. M. Estabrooke, Photography in the Studio and in the Field, p. 29, with cadmium bromide tetrahydrate.':
    'Minimum : E. M. Estabrooke, Photography in the Studio and in the Field, p. 29, avec du bromure de cadmium tétrahydraté.',
  "High: Wilson's Photographics, par. 131, anhydrous.":
    'Maximum : Wilson’s Photographics, par. 131, anhydre.',
  'Likely: the middle.': 'Probable : le milieu.',
  'By the molar masses of the salts of the formula, if all halide reacts.':
    'D’après les masses molaires des sels de la formule, si tout l’halogénure réagit.',
  'Assumption: seven of ten plates are kept.': 'Supposition : sept plaques sur dix sont gardées.',
  'After the third try one stops: common practice, no source.':
    'Après le troisième essai on s’arrête : usage courant, sans source.',
  'From memory: one and a half to two tries for each plate kept.':
    'De mémoire : un essai et demi à deux pour chaque plaque gardée.',
};

/** The longest first, since one may begin as another does. */
const KNOWN = Object.keys(PARTS).sort((one, other) => other.length - one.length);

/** In French, part by part; a text of which any part is not known stays as it is. */
export function frenchPrinted(english: string): string {
  const parts: string[] = [];
  let rest = english;
  while (rest !== '') {
    const known = KNOWN.find((part) => rest.startsWith(part));
    if (known === undefined) return english;
    parts.push(PARTS[known] ?? known);
    rest = rest.slice(known.length).trimStart();
  }
  return parts.join(' ');
}
