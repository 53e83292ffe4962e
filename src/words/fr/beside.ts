// Not checked by a native reader. What is wrong with an answer, by the English sentence that says so; {} stands for
// whatever that sentence tells besides, in its order. Files are named by test/unit/words-beside.spec.ts.
import { monthName, weekdayName } from '../../lib/words.js';
import { MONTHS, WEEKDAYS } from './dates.js';

const SENTENCES: Readonly<Record<string, string>> = {
  // any form
  'Please check this answer.': 'Veuillez revoir cette réponse.',
  'Please keep this under {} characters.': 'Veuillez ne pas dépasser {} caractères.',
  'Meanwhile it was ticked.': 'Entre-temps, la case a été cochée.',
  'Meanwhile the tick was taken away.': 'Entre-temps, la case a été décochée.',
  'Meanwhile it was emptied.': 'Entre-temps, ce champ a été vidé.',
  'Meanwhile it says: {}': 'Entre-temps, il est écrit : {}',
  'Somebody changed this while you were at it. What they wrote stands beside each box; sending again puts yours in its place.':
    'Quelqu’un a changé ceci entre-temps. Ce qui a été écrit figure à côté de chaque champ ; un nouvel envoi met vos réponses à la place.',
  // who somebody is, and how to reach them
  'Please tell us your name.': 'Veuillez nous dire votre nom.',
  'Please give this person a name.': 'Veuillez donner un nom à cette personne.',
  'Please tell us who it is, or take this person out.':
    'Veuillez nous dire qui c’est, ou retirer cette personne.',
  'A name has at most 200 characters.': 'Un nom a 200 caractères au plus.',
  'Please say how we can reach you.': 'Veuillez dire comment vous joindre.',
  'Please give an e-mail address like name@example.org.':
    'Veuillez donner une adresse électronique comme nom@example.org.',
  'An e-mail address has at most 254 characters.': 'Une adresse électronique a 254 caractères au plus.',
  'Please give a telephone number we can ring.':
    'Veuillez donner un numéro de téléphone que nous pouvons appeler.',
  'A telephone number has at most 40 characters.': 'Un numéro de téléphone a 40 caractères au plus.',
  'Please give the address for our letter.': 'Veuillez donner l’adresse pour notre lettre.',
  'Please choose one of the languages.': 'Veuillez choisir l’une des langues.',
  // asking for a sitting
  'Please choose a plate size.': 'Veuillez choisir un format de plaque.',
  'Please say who is on this plate.': 'Veuillez dire qui est sur cette plaque.',
  'Each person is on a plate once.': 'Chaque personne est une seule fois sur une plaque.',
  'The last day must not be before the first.': 'Le dernier jour ne peut pas être avant le premier.',
  'Please choose at least one day.': 'Veuillez choisir au moins un jour.',
  'You have ticked days and chosen any open day: please say which of the two.':
    'Vous avez coché des jours et choisi tout jour ouvert : veuillez dire lequel des deux.',
  'Please choose at most 60 days.': 'Veuillez choisir 60 jours au plus.',
  'Please name a parent or guardian: somebody who sits is under 18.':
    'Veuillez nommer un parent ou tuteur : une personne qui pose a moins de 18 ans.',
  'Please tell us how to reach the parent or guardian.':
    'Veuillez nous dire comment joindre le parent ou tuteur.',
  'Please choose one of the three ages.': 'Veuillez choisir l’un des trois âges.',
  'Please say who sits.': 'Veuillez dire qui pose.',
  'At most 12 people can sit together.': 'Au plus 12 personnes peuvent poser ensemble.',
  'Please ask for at least one plate.': 'Veuillez demander au moins une plaque.',
  'At most six plates fit into one sitting.': 'Six plaques au plus tiennent dans une séance.',
  'Please choose one of the kinds of sitting.': 'Veuillez choisir l’une des sortes de séance.',
  'Please choose the place you travel from.': 'Veuillez choisir le lieu d’où vous venez.',
  'The number of a voucher has at most 20 characters.': 'Le numéro d’un bon a 20 caractères au plus.',
  'Please choose among the people named above.': 'Veuillez choisir parmi les personnes nommées plus haut.',
  'This place is not known here; please choose one from the list.':
    'Ce lieu n’est pas connu ici ; veuillez en choisir un dans la liste.',
  'The studio does not make plates of this size.': 'Le studio ne fait pas de plaques de ce format.',
  'Please tell us where you travel from.': 'Veuillez nous dire d’où vous venez.',
  'We have no list of postcodes; please give the nearest town. Later you can add the postcode on your own page.':
    'Nous n’avons pas de liste des codes postaux ; veuillez donner la ville la plus proche. Plus tard vous pourrez ajouter le code postal sur votre page.',
  'We do not know this place; please give the nearest town.':
    'Nous ne connaissons pas ce lieu ; veuillez donner la ville la plus proche.',
  'Please choose days from {} to {}.': 'Veuillez choisir des jours du {} au {}.',
  'This is past or too soon; the first day to ask for is {}.':
    'C’est passé ou trop tôt ; le premier jour à demander est le {}.',
  'Places are given until {}.': 'Des places sont données jusqu’au {}.',
  'No voucher has this number. Please look at it again, or leave this empty.':
    'Aucun bon n’a ce numéro. Veuillez le vérifier, ou laisser vide.',
  'This voucher was used already.': 'Ce bon a déjà servi.',
  'This voucher was valid until {}. Please leave this empty and tell us about it: the studio may honour it all the same.':
    'Ce bon valait jusqu’au {}. Veuillez laisser vide et nous en parler : le studio l’acceptera peut-être tout de même.',
  'Please tell the studio what you would like.': 'Veuillez dire au studio ce que vous souhaitez.',
  // learning
  'Please say what this person has done before.': 'Veuillez dire ce que cette personne a déjà fait.',
  'Please say who wants to learn.': 'Veuillez dire qui veut apprendre.',
  'At most {} people can sign up together.': 'Au plus {} personnes peuvent s’inscrire ensemble.',
  'Please confirm the age of everybody who comes.':
    'Veuillez confirmer l’âge de toutes les personnes qui viennent.',
  'Please give a time like 10:00.': 'Veuillez donner une heure comme 10:00.',
  'There are not so many places left on that day. You can go on its waiting list and are asked when places come free.':
    'Il ne reste pas tant de places ce jour-là. Vous pouvez aller sur sa liste d’attente ; on vous le demande quand des places se libèrent.',
  'Nobody can sign up for this day now.': 'Personne ne peut s’inscrire à ce jour pour l’instant.',
  'This day has begun already.': 'Ce jour a déjà commencé.',
  'This is not taught one to one.': 'Ceci ne s’enseigne pas à une personne seule.',
  'This is a second day, for who came here before.': 'C’est un second jour, pour qui est déjà venu ici.',
  'There is no room for so many people on such a day.':
    'Il n’y a pas de place pour tant de personnes un tel jour.',
  'The studio has no plates of this size.': 'Le studio n’a pas de plaques de ce format.',
  'The day has begun; nothing can be given back any more.':
    'Le jour a commencé ; plus rien ne peut être rendu.',
  'The wording has changed meanwhile; please read it once more.':
    'Le texte a changé entre-temps ; veuillez le relire.',
  // dates and hours
  'Please give a date that the calendar has, with day, month and year.':
    'Veuillez donner une date qui existe, avec jour, mois et année.',
  'Please give the day as well.': 'Veuillez donner aussi le jour.',
  'Please give the time as well.': 'Veuillez donner aussi l’heure.',
  'Please give a time of day, such as 10:00.': 'Veuillez donner une heure du jour, comme 10:00.',
  'Clocks at the studio skip this hour that day.': 'Les horloges du studio sautent cette heure ce jour-là.',
  'Please give the date as year, month and day, {}.': 'Veuillez donner la date : année, mois et jour, {}.',
  'There is no such day in the calendar.': 'Ce jour n’existe pas dans le calendrier.',
  'The reckoning is good for dates {} only.': 'Le calcul ne vaut que pour des dates {}.',
  // places and journeys
  'Please choose which of these places it is.': 'Veuillez choisir lequel de ces lieux c’est.',
  'This time zone is not known. It is a name such as Europe/London.':
    'Ce fuseau horaire n’est pas connu. C’est un nom comme Europe/London.',
  'This time zone is not known. It is a name such as Europe/London, written just so.':
    'Ce fuseau horaire n’est pas connu. C’est un nom comme Europe/London, écrit exactement ainsi.',
  'The time zone is needed: a name such as Europe/London.':
    'Il faut le fuseau horaire : un nom comme Europe/London.',
  'No town is near these coordinates; please give their time zone.':
    'Aucune ville n’est près de ces coordonnées ; veuillez donner leur fuseau horaire.',
  'A latitude is at most 90 degrees, and a longitude at most 180.':
    'Une latitude est de 90 degrés au plus, et une longitude de 180.',
  'Please give a town or village, or coordinates.':
    'Veuillez donner une ville ou un village, ou des coordonnées.',
  'Postcodes are not known here. We keep yours as you wrote it; please give the nearest town as well.':
    'Les codes postaux ne sont pas connus ici. Nous gardons le vôtre tel que vous l’avez écrit ; veuillez donner aussi la ville la plus proche.',
  'This place is not known here; please give the nearest town, or coordinates.':
    'Ce lieu n’est pas connu ici ; veuillez donner la ville la plus proche, ou des coordonnées.',
  'Please give a place, or its coordinates.': 'Veuillez donner un lieu, ou ses coordonnées.',
  'A postcode has at most {} characters.': 'Un code postal a {} caractères au plus.',
  'Please choose one of these ways.': 'Veuillez choisir l’un de ces moyens.',
  'Please give hours, such as 6.5 or 6:30; a week at most.':
    'Veuillez donner des heures, comme 6,5 ou 6:30 ; une semaine au plus.',
  'Please choose one of these.': 'Veuillez choisir l’une de ces réponses.',
  'Please give whole minutes, 0 to 720.': 'Veuillez donner des minutes entières, de 0 à 720.',
  // daylight
  'The window is one of: {}.': 'Veuillez choisir l’une de ces lumières.',
  'The latitude is a number of degrees from -90 to 90; south is negative.':
    'La latitude est un nombre de degrés de -90 à 90 ; le sud est négatif.',
  'The longitude is a number of degrees from -180 to 180; west is negative.':
    'La longitude est un nombre de degrés de -180 à 180 ; l’ouest est négatif.',
  'The least height of the sun is a number of degrees from 0 to 60.':
    'La hauteur minimale du soleil est un nombre de degrés de 0 à 60.',
  'The exposure is a number of seconds, above 0 and at most 3600.':
    'Le temps de pose est un nombre de secondes, au-dessus de 0 et de 3600 au plus.',
  'The height of the sun at that exposure is a number of degrees from 1 to 90.':
    'La hauteur du soleil à ce temps de pose est un nombre de degrés de 1 à 90.',
  // chemistry and baths
  'Please choose a size.': 'Veuillez choisir un format.',
  'Please say how many plates you want to keep.': 'Veuillez dire combien de plaques seront gardées.',
  'Please say who makes the plates.': 'Veuillez dire qui fait les plaques.',
  'Please choose a formula, or none.': 'Veuillez choisir une formule, ou aucune.',
  'So many of one size are not reckoned together.':
    'Le calcul ne va pas jusqu’à tant de plaques d’un même format.',
  'Please give a whole number of plates, 1 to 1000.':
    'Veuillez donner un nombre entier de plaques, de 1 à 1000.',
  'Please give millimetres, {} to {}.': 'Veuillez donner des millimètres, de {} à {}.',
  'This is lighter than water; a bath is about 1.07.': 'C’est plus léger que l’eau ; un bain est vers 1.07.',
  'The table ends at 1.474, 40 g in 100 g.': 'La table s’arrête à 1.474, soit 40 g pour 100 g.',
  'Please give degrees Celsius, {} to {}.': 'Veuillez donner des degrés Celsius, de {} à {}.',
  'This is stronger than the table, which ends at about 590 g/L.':
    'C’est plus fort que la table, qui s’arrête vers 590 g/L.',
  'Please tell the strength in one way only.': 'Veuillez donner le titre d’une seule façon.',
  'Please give the density, or tell the strength in another way.':
    'Veuillez donner la densité, ou le titre d’une autre façon.',
  'Please give the density, such as 1.073.': 'Veuillez donner la densité, comme 1.073.',
  'Please give a number, such as 90.': 'Veuillez donner un nombre, comme 90.',
  'Please give the millilitres used.': 'Veuillez donner les millilitres versés.',
  'Please give moles in a litre, such as 0.1.': 'Veuillez donner des moles par litre, comme 0.1.',
  'Please give the millilitres of bath taken.': 'Veuillez donner les millilitres de bain prélevés.',
  'Please give the grams of dried silver chloride.':
    'Veuillez donner les grammes de chlorure d’argent séché.',
  'Please give millilitres, such as 2000.': 'Veuillez donner des millilitres, comme 2000.',
  'Please give grams in a litre, 1 to 500.': 'Veuillez donner des grammes par litre, de 1 à 500.',
  'The least is above the strength wanted.': 'Le minimum est au-dessus du titre voulu.',
  'This is more than a full bath.': 'C’est plus qu’un bain plein.',
};

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** Those that tell something besides. */
const OPEN = Object.entries(SENTENCES).flatMap(([english, french]) =>
  english.includes('{}')
    ? [{ told: new RegExp(`^${english.split('{}').map(escaped).join('(.+?)')}$`), french }]
    : [],
);

/** In French; a sentence that is not known here stays as it is. */
export function frenchBeside(english: string): string {
  if (Object.hasOwn(SENTENCES, english)) return SENTENCES[english] ?? english;
  for (const { told, french } of OPEN) {
    const [, ...besides] = told.exec(english) ?? [];
    if (besides.length > 0)
      return besides.reduce((text, one) => text.replace('{}', () => inFrench(one)), french);
  }
  return english;
}

const DAYS = new Map(WEEKDAYS.map((french, at) => [weekdayName(at + 1), french]));
const NAMES = new Map(MONTHS.map((french, at) => [monthName(at + 1), french]));
const DAY = new RegExp(`(${[...DAYS.keys()].join('|')}) (\\d+) (${[...NAMES.keys()].join('|')}) (\\d+)`, 'g');

/** Days in words, and stretches of them. */
const inFrench = (told: string): string =>
  told
    .replace(/^from (.+) to (.+)$/, 'du $1 au $2')
    .replace(DAY, (_, weekday: string, day: string, month: string, year: string) =>
      [DAYS.get(weekday), day === '1' ? '1er' : day, NAMES.get(month), year].join(' '),
    );
