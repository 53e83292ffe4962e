// Not checked by a native reader.
import type { teaching } from '../en/teaching.js';

export const frenchTeaching: typeof teaching = {
  title: 'Apprendre à faire des plaques',
  lead: 'Des jours où le studio enseigne, les mains dans la chimie. Aucune expérience n’est nécessaire.',
  none: 'Aucun jour n’est ouvert aux inscriptions en ce moment.',
  full: 'Complet ; il y a une liste d’attente',
  left: (places) => (places === 1 ? 'encore une place' : `encore ${places} places`),
  look: {
    open: (course, day) => `Voir et s’inscrire : ${course}, ${day}`,
    full: (course, day) => `Voir, et attendre une place : ${course}, ${day}`,
  },
  oneToOne: {
    heading: 'Seul avec l’enseignant, un jour à vous',
    secondDay: 'Pour qui est déjà venu ici.',
    ask: (course) => `Demander un jour : ${course}`,
    title: (course) => `${course}, seul avec l’enseignant`,
    lead: 'Demandez un jour ; le studio répond. Rien n’est fixé avant cela.',
    form: 'Demander un jour',
    day: 'Quel jour souhaitez-vous ?',
    second: 'Un second jour',
    cameBefore: 'Je suis déjà venu ici à un jour d’enseignement',
  },
  calendar: {
    title: 'Dans votre calendrier',
    follow: 'Suivre nos jours d’enseignement sur un téléphone',
    more: ', ou donnez l’adresse ci-dessous à tout calendrier qui peut en suivre un autre. Il se tient à jour de lui-même.',
    address: 'Adresse des jours d’enseignement',
  },
  when: (day, from, until) => `${day}, de ${from} à ${until}`,
  plates: (count) => (count === 1 ? 'une plaque' : `${count} plaques`),
  part: (title, minutes, where) => `${title}, ${minutes} minutes (${where})`,
  where: {
    studio: 'au studio',
    darkroom: 'en chambre noire',
    outside: 'dehors',
    table: 'à table',
    break: 'une pause',
  },
  experience: {
    none: 'N’a jamais coulé de plaque',
    some: 'A coulé quelques plaques, ou suivi un cours',
    practised: 'Fait ses propres plaques',
  },
  day: {
    title: 'Le jour',
    length: 'Durée',
    hours: (minutes) =>
      minutes % 60 === 0
        ? minutes === 60
          ? 'une heure'
          : `${minutes / 60} heures`
        : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`,
    makes: 'Chacun de vous fait',
    leastAge: 'Âge minimal',
    bring: 'À apporter',
    wear: 'À porter',
    given: 'On vous prête',
    reading: 'Avant de venir',
    fee: 'Prix',
    deposit: 'Acompte',
    release: 'Si vous ne pouvez pas venir',
    privately:
      'Asthme, grossesse, peau sensible : veuillez en parler à l’enseignant en privé avant de vous inscrire.',
    goesAhead: 'Le jour a bien lieu.',
    heldWith: (least, decided) =>
      `Le jour a lieu à partir de ${least} personnes ; cela se décide le ${decided}. Veuillez ne pas acheter de billets avant.`,
  },
  form: {
    signUp: 'S’inscrire',
    wait: 'Aller sur la liste d’attente',
    isFull: 'Le jour est complet',
    ifFull: 'Si le jour est complet d’ici là',
    orWait: 'Mettez-moi sur la liste d’attente, et demandez-moi quand des places se libèrent',
    name: 'Votre nom',
    reachBy: 'Comment vous joindre ?',
    email: 'Adresse électronique',
    telephone: 'Numéro de téléphone',
    post: 'Adresse pour les lettres',
    who: 'Qui apprend ?',
    student: (at) => `Élève ${at}`,
    first: 'Laissez le nom vide si c’est vous.',
    nameOf: 'Nom',
    before: 'Qu’a fait cette personne jusqu’ici ?',
    size: 'Un autre format de plaque',
    sizeHint: 'Seulement si vous apportez votre propre chambre ou châssis.',
    sizeOfDay: 'Le format du jour',
    brings: 'Votre propre chambre photographique, ou autre chose',
    notComing: 'Ne vient pas, finalement ?',
    takeOut: 'Retirer cette personne',
    add: 'Ajouter une personne',
    age: 'Âge',
    oldEnough: (age) => `Toutes les personnes qui viennent ont ${age} ans ou plus`,
    anything: 'Y a-t-il autre chose à savoir ?',
    send: 'Envoyer',
  },
  tooLate:
    'Ce formulaire est resté ouvert trop longtemps et n’a donc pas été envoyé. Veuillez le relire et l’envoyer de nouveau.',
  again:
    'Ce formulaire a déjà été envoyé une fois. Si vous l’envoyez maintenant, c’est une seconde inscription.',
  short: 'Pour tant de personnes, le stock ne suffit pas d’ici ce jour. Veuillez demander au studio.',
};
