// Not checked by a native reader.
import type { letters } from '../en/letters.js';

export const frenchLetters: typeof letters = {
  dear: 'Bonjour {name},',
  yourPage: 'Votre page',
  facts: {
    days: 'Jours qui conviennent',
    day: 'Jour',
    time: 'Heure',
    hours: 'de {from} à {until} (heure du studio, {zone})',
    sitter: 'Qui pose',
    sitters: 'Ceux qui posent',
    plate: 'Plaque',
    plates: 'Plaques',
    where: 'Lieu',
  },
  moment: '{day}, {time}',
  leave: 'Partez de chez vous au plus tard le {leave} (votre heure, {zone}), pour arriver ici sans hâte.',
  signIn: {
    subject: 'Se connecter à {studio}',
    once: 'Ce lien vous connecte une seule fois, dans les {minutes} minutes. Si vous ne l’avez pas demandé, laissez-le : il ne se passe rien.',
    action: 'Se connecter',
  },
  invited: {
    subject: 'Travailler à {studio}',
    work: 'On vous invite à travailler à {studio} : à voir qui vient et quand, la feuille du jour et le stock.',
    once: 'Ce lien vous permet de choisir un mot de passe. Il sert une seule fois, dans les {days} jours.',
    action: 'Commencer',
  },
  takesOut: 'L’entrée de calendrier jointe retire ce jour de votre calendrier.',
  askAgain: 'Vous pouvez demander de nouveau quand vous voulez.',
  sitting: {
    asked: {
      subject: 'Votre demande de séance à {studio}',
      thanks:
        'Merci, votre demande nous est parvenue. Le studio les lit toutes et répond ; rien n’est encore fixé.',
      page: 'Votre page montre où elle en est. Vous pouvez aussi l’y retirer. Veuillez garder ce lien pour vous.',
    },
    waiting: {
      subject: 'Vous êtes sur la liste d’attente de {studio}',
      listed:
        'Le studio a mis votre demande sur sa liste d’attente. Quand une place se libère l’un de vos jours, nous vous demandons ; rien n’est encore fixé.',
      page: 'Votre page montre combien de temps cela peut prendre, et comment nous le calculons.',
    },
    owed: {
      subject: '{studio} vous doit une place',
      sorry:
        'Nous regrettons que votre jour ici n’ait donné aucune plaque. Ce n’est pas votre faute : nous vous devons une autre place. Vous êtes en tête de notre liste d’attente, avec la date de votre première demande, {since}, et nous vous demandons dès qu’une place est libre.',
      page: 'Voici votre page pour celle-ci ; celle du jour passé reste comme elle est.',
    },
    offered: {
      subject: 'Une place pour vous à {studio} : {place}',
      held: 'Nous pouvons vous offrir une place. Elle est gardée pour vous jusqu’au {until} (heure du studio) ; ensuite elle est libre pour quelqu’un d’autre.',
      answer:
        'Sur votre page vous pouvez la prendre d’un seul geste, ou dire que celle-ci ne vous convient pas. Dans ce cas vous gardez votre rang sur la liste.',
    },
    refused: {
      subject: 'Vous restez sur la liste d’attente de {studio}',
      thanks:
        'Merci de nous avoir dit que cette place ne vous convient pas. Elle est libre pour quelqu’un d’autre, et vous gardez votre rang sur la liste.',
    },
    lapsed: {
      subject: 'Notre offre a pris fin : {place}',
      free: 'Nous n’avons pas eu de réponse à temps : la place est libre pour quelqu’un d’autre. Vous gardez votre rang sur la liste, et nous vous demandons de nouveau quand une autre place se libère.',
    },
    'run out': {
      subject: 'Voulez-vous toujours poser à {studio} ?',
      none: 'Nos offres ont pris fin sans réponse : nous n’en faisons donc plus.',
      back: 'Si vous voulez toujours venir, un seul geste sur votre page vous remet sur la liste, avec la date de votre première demande.',
    },
    'called back': {
      subject: 'La place que nous vous avons offerte ne peut pas être gardée : {place}',
      sorry: 'Nous le regrettons : le studio doit reprendre la place qu’il vous a offerte.',
      turn: 'Vous gardez votre rang sur la liste, et nous vous demandons de nouveau quand une autre place se libère.',
    },
    'called off': {
      subject: 'Le studio doit annuler la séance du {place}',
      sorry:
        'Nous le regrettons : la séance du {place} ne peut pas avoir lieu. Veuillez ne pas vous mettre en route.',
      first:
        'Vous êtes en tête de notre liste d’attente, avec la date de votre première demande, et nous vous demandons dès qu’il y a une autre place.',
    },
    moved: {
      subject: 'Votre place à {studio} est déplacée au {place}',
      now: 'La séance du {was} ne peut pas avoir lieu. Votre place est maintenant le {place}.',
      entry: 'L’entrée de calendrier jointe se déplace avec elle.',
      unsuited:
        'Si le nouveau jour ne vous convient pas, dites-le sur votre page : vous en attendez alors un autre, en tête de la liste.',
    },
    'another day': {
      subject: 'Vous attendez un autre jour à {studio}',
      free: 'Vous avez demandé un autre jour. La place est libre pour quelqu’un d’autre, et vous gardez votre rang sur la liste.',
    },
    confirmed: {
      subject: 'Votre place à {studio} : {place}',
      glad: 'Nous avons le plaisir de vous dire que vous avez une place.',
      entry: 'L’entrée de calendrier est jointe.',
      giveBack:
        'Si vous ne pouvez pas venir, veuillez rendre la place sur votre page : quelqu’un d’autre l’attend.',
    },
    declined: {
      subject: 'Votre demande de séance à {studio}',
      sorry: 'Nous le regrettons, nous ne pouvons pas vous donner de place.',
    },
    withdrawn: {
      subject: 'Votre demande à {studio} est retirée',
      done: 'Vous avez retiré votre demande, et rien ne reste réservé pour vous. Vous pouvez demander de nouveau quand vous voulez.',
    },
    released: {
      subject: 'Votre place à {studio} est rendue : {place}',
      thanks:
        'Vous avez rendu votre place, et quelqu’un d’autre peut l’avoir maintenant. Merci de nous l’avoir dit.',
    },
  },
  reminder: {
    giveBack:
      'Si vous ne pouvez pas venir, veuillez le dire aujourd’hui sur votre page : un seul geste demande un autre jour ou rend la place. Une place qui reste vide, quelqu’un d’autre l’a attendue des mois, et sa chimie n’est faite que pour ce jour.',
    ring: 'Si quelque chose vous empêche de venir, veuillez nous joindre : {ring}.',
    travel: {
      subject: 'Venez-vous toujours à {studio} le {day} ?',
      prepare:
        'Votre place est le {place}. Il est temps de penser au trajet et à un lit pour la nuit, si vous en avez besoin.',
    },
    week: { subject: 'Votre place à {studio} : {place}', place: 'Votre place est le {place}.' },
    near: {
      subject: 'Avant le {day} à {studio}',
      look: 'Votre place est le {place}. La plaque voit surtout la lumière bleue : le bleu peut venir pâle, le rouge et le jaune sombres, et les taches de rousseur plus fortes qu’à l’œil. Elle vous montre comme un miroir.',
    },
    eve: {
      subject: 'À bientôt à {studio}, le {place}',
      bring: 'Vous n’avez rien à apporter que ce dont nous sommes convenus. Un temps gris n’annule rien.',
    },
    day: { subject: 'Aujourd’hui : {time} à {studio}' },
  },
};
