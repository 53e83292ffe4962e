// Not checked by a native reader.
import type { place } from '../en/place.js';

const places = (count: number) =>
  count === 1 ? 'une place est encore libre' : `${count} places sont encore libres`;

export const frenchPlace: typeof place = {
  title: { request: 'Votre demande', sitting: 'Votre séance' },
  done: {
    asked: 'Votre demande est arrivée au studio. Veuillez garder l’adresse de cette page : elle est à vous.',
    'given-up': 'C’est rendu, et un message à ce sujet est en route.',
    accepted: 'La place est à vous. Un message avec l’entrée de calendrier est en route.',
    refused: 'Merci. Elle est libre pour quelqu’un d’autre, et vous gardez votre rang sur la liste.',
    'another-day': 'La place est rendue, et vous attendez un autre jour.',
    reopened: 'Vous êtes de nouveau sur la liste, avec la date de votre première demande.',
    reminders: 'Merci, c’est noté.',
    language: 'Merci. Vos lettres et votre calendrier sont désormais en français.',
    journey: 'Merci, c’est noté. Voyez ci-dessous quand partir.',
    corrected: 'Vos indications sont gardées telles qu’elles figurent ci-dessous.',
    'as-before': 'Rien n’était différent, donc rien n’est changé.',
    wished: 'Le studio a votre souhait et vous répondra. Rien n’est encore changé.',
    consent: 'C’est noté. Vous pouvez le changer ici à tout moment.',
  },
  notDone: {
    over: 'Il n’y a plus rien à venir qui puisse être changé ici.',
    'words-changed': 'Le studio a changé ces termes entre-temps. Veuillez les relire.',
    'ran-out': 'Cette offre avait pris fin, et la place est de nouveau ouverte à d’autres.',
    taken: 'Cette place ne peut plus être gardée. Le studio le regrette, et vous écrit.',
    already: 'C’était déjà rendu, ou une réponse a été donnée entre-temps.',
  },
  lead: {
    requested: 'Le studio a votre demande et y répondra. Rien n’est encore fixé.',
    waiting:
      'Vous êtes sur la liste d’attente. Rien n’est encore fixé ; quand une place se libère, on vous demande.',
    offered: 'Le studio vous offre une place. Elle est gardée pour vous jusqu’à la fin de l’offre.',
    confirmed: 'Vous avez une place. Nous nous réjouissons de vous rencontrer.',
    made: 'Votre séance a eu lieu. Merci de votre venue.',
    came_no_plate:
      'Vous étiez là, et aucune plaque n’a pu être faite. Ce n’est pas votre faute : le studio vous doit une autre place, et une lettre vous en apporte la page.',
    did_not_come: 'Cette séance n’a pas eu lieu.',
    declined: 'Le studio n’a pas pu vous donner de place.',
    withdrawn: 'Vous avez retiré cette demande. Vous pouvez demander de nouveau quand vous voulez.',
    lapsed: 'Des offres ont pris fin sans réponse : il n’y en a donc plus. Vous pouvez revenir sur la liste.',
    released: 'Vous avez rendu cette place. Vous pouvez demander de nouveau quand vous voulez.',
    called_off: 'Le studio a dû annuler cette séance.',
  },
  hourHasCome: 'L’heure de votre séance est venue.',
  offerRanOut: 'L’offre que nous vous avions faite a pris fin. Vous gardez votre rang sur la liste.',
  returnOwed: (askedOn) =>
    `Le studio vous doit une place : vous êtes en tête de la liste, avec la date de votre première demande, ${askedOn}, et on vous demande dès qu’une place est libre.`,
  putBack: 'Me remettre sur la liste',
  facts: {
    title: 'Où en sont les choses',
    state: 'État',
    days: 'Jours qui conviennent',
    day: 'Jour',
    time: 'Heure',
    hours: (from, until, zone) => `de ${from} à ${until}, heure du studio (${zone})`,
    kind: 'Sorte de séance',
    sitters: (count) => (count === 1 ? 'Qui pose' : 'Ceux qui posent'),
    plates: 'Plaques',
    plate: (size, names) => `${size} : ${names}`,
    hopes: 'Vous espérez',
    brings: 'Vous apportez',
    guardian: 'Parent ou tuteur',
  },
  states: {
    requested: 'en attente de la réponse du studio',
    waiting: 'sur la liste d’attente',
    offered: 'une place est offerte',
    confirmed: 'confirmée',
    made: 'faite',
    came_no_plate: 'séance tenue, sans plaque',
    did_not_come: 'absence',
    declined: 'refusée',
    withdrawn: 'retirée',
    lapsed: 'hors de la liste, des offres ayant pris fin',
    released: 'rendue',
    called_off: 'annulée par le studio',
  },
  offer: {
    title: 'Une place pour vous',
    when: (day, from, until) => `${day}, de ${from} à ${until}`,
    atStudio: ', heure du studio.',
    held: (day, time, zone) =>
      `Gardée pour vous jusqu’au ${day}, ${time} (heure du studio, ${zone}). Ensuite elle est libre pour quelqu’un d’autre.`,
    take: { label: 'Prendre cette place', button: 'Oui, je prends cette place' },
    refuse: { label: 'Pas celle-ci', button: 'Pas celle-ci ; je continue d’attendre' },
  },
  wait: {
    title: 'Combien de temps cela peut prendre',
    notKnown: 'On ne peut pas encore le dire : trop peu de places sont en vue',
    upTo: (months) => (months === 1 ? 'Jusqu’à un mois' : `Jusqu’à ${months} mois`),
    between: (from, to) => `Entre ${from} et ${to} mois`,
    mostly: ', dans huit cas sur dix',
    reckoned: '. C’est un calcul, non une promesse.',
    how: 'Comment c’est calculé',
    standing: (position, of) => `Vous êtes au rang ${position} sur ${of} de la liste.`,
    ahead: (months, open, given) =>
      `Dans les ${months} mois à venir, ${places(open)} et ${given} ${given === 1 ? 'est donnée' : 'sont données'}.`,
    ofTen: (taken, back) =>
      `Sur dix places offertes, environ ${taken} sont prises, et sur dix données, environ ${back} reviennent.`,
    unsure:
      'Les places ne viennent pas à des moments fixes, et il y en a moins pendant les mois sombres : c’est donc une fourchette. Elle ne sait pas quels jours vous pouvez venir, ni quelles places vont d’abord à d’autres.',
  },
  wish: (words) =>
    `Vous avez demandé au studio : « ${words} » Il n’a pas encore répondu, et rien n’est changé.`,
  correct: 'Corriger mes indications, ou demander d’autres plaques',
  askAgain: 'Demander de nouveau',
  another: {
    title: 'Un autre jour serait mieux ?',
    says: 'Vous rendez ce jour et en attendez un autre, avec la date de votre première demande.',
    button: 'Demander un autre jour',
    sure: (when) =>
      `La place du ${when} est aussitôt libre pour quelqu’un d’autre, et vous attendez une nouvelle offre.`,
    yes: 'Oui, demander un autre jour',
  },
  release: {
    title: 'Vous ne pouvez pas venir ?',
    says: 'Rendez la place dès que vous le savez : quelqu’un d’autre l’attend.',
    button: 'Rendre ma place',
    sure: (when) =>
      `La place du ${when} est aussitôt libre pour quelqu’un d’autre. On ne peut pas revenir en arrière.`,
    yes: 'Oui, la rendre',
  },
  withdraw: {
    title: 'Vous ne voulez plus ?',
    says: 'Retirez votre demande ; le studio le sait aussitôt.',
    button: 'Retirer ma demande',
    sure: () => 'Votre demande prend fin aussitôt. On ne peut pas revenir en arrière.',
    yes: 'Oui, la retirer',
  },
  yourData: 'Vos données : les emporter, ou les faire effacer',
  language: {
    title: 'Langue',
    hint: 'Elle vaut pour les lettres que vous recevez, votre calendrier et cette page.',
    keep: 'Garder cette langue',
  },
  reminders: {
    title: 'Rappels',
    none: 'Vous ne recevez pas de rappel avant ce jour. On vous prévient tout de même de tout changement de votre place.',
    some: 'Vous recevez des rappels de votre place avant ce jour.',
    noMore:
      'Il n’y a plus de rappel avant ce jour. On vous prévient tout de même de tout changement de votre place.',
    toCome: 'Ce que nous vous enverrons',
    by: {
      email: 'Vous les recevez par courriel.',
      telephone: 'Nous vous les disons au téléphone.',
      letter: 'Vous les recevez par lettre.',
    },
    line: (day, about) => `${day} : ${about}`,
    about: {
      travel: 'le trajet, et si vous venez toujours',
      week: 'votre place, et comment la rendre si vous ne pouvez pas venir',
      near: { sitting: 'comment vous préparer', teaching: 'quoi apporter et comment vous habiller' },
      eve: 'quand être ici, et quand partir',
      day: 'l’heure, encore une fois',
    },
    again: 'Me le rappeler de nouveau',
    stop: 'Ne pas me le rappeler',
    stopped:
      'Vous ne recevez plus de rappel. On vous prévient tout de même de tout changement de votre place.',
    stopsHere:
      'Vous recevez des rappels de votre place avant ce jour. Ici vous les arrêtez ; on vous prévient tout de même de tout changement de votre place.',
  },
};
