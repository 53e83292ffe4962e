// Not checked by a native reader.
import type { lettersTeaching } from '../en/letters-teaching.js';

export const frenchLettersTeaching: typeof lettersTeaching = {
  facts: {
    day: 'Jour',
    when: 'Quand',
    held: 'Gardée pour vous jusqu’au',
    who: 'Qui apprend',
    bring: 'À apporter',
    wear: 'À porter',
  },
  hours: '{day}, de {from} à {until}',
  notFixed: 'Pas encore fixé',
  askedFor: 'Demandé pour le {day}',
  change: {
    asked: {
      subject: 'Votre souhait d’apprendre : {course}',
      says: 'Merci, votre souhait d’apprendre nous est parvenu. Le studio répond ; rien n’est encore fixé.',
    },
    waiting: {
      subject: 'Vous êtes sur la liste d’attente : {course}',
      says: 'Le jour est complet, et vous êtes sur sa liste d’attente. Quand des places se libèrent, on vous demande ; rien n’est encore fixé.',
    },
    offered: {
      subject: 'Une place pour apprendre vous est offerte : {course}',
      says: 'Des places se sont libérées, et elles sont gardées pour vous. Veuillez répondre sur votre page.',
    },
    refused: {
      subject: 'Vous restez sur la liste : {course}',
      says: 'Merci de nous l’avoir dit. Vous gardez votre rang sur la liste d’attente.',
    },
    lapsed: {
      subject: 'Notre offre a pris fin : {course}',
      says: 'Les places que nous avions offertes sont de nouveau ouvertes à d’autres. Vous gardez votre rang sur la liste d’attente.',
    },
    'run out': {
      subject: 'Il n’y a plus d’offres : {course}',
      says: 'Plusieurs offres ont pris fin sans réponse : vous n’êtes donc plus sur la liste d’attente.',
    },
    signed: {
      subject: 'Vous avez une place pour apprendre : {course}',
      says: 'Vous avez une place, et nous nous en réjouissons. Sur votre page, veuillez nous dire ce que le jour doit savoir, puis lire et accepter comment nous travaillons sans danger : sans cela personne ne travaille à la paillasse.',
    },
    changed: {
      subject: 'Votre jour d’apprentissage a changé : {course}',
      says: 'Quelque chose a changé à votre jour d’apprentissage ; il figure ci-dessous tel qu’il est maintenant. S’il ne vous convient plus, rendez votre place sur votre page.',
    },
    declined: {
      subject: 'À propos de votre souhait d’apprendre : {course}',
      says: 'Nous ne pouvons pas vous donner de place cette fois-ci.',
    },
    withdrawn: {
      subject: 'Votre inscription est retirée : {course}',
      says: 'Elle est retirée. Vous pouvez vous inscrire de nouveau quand vous voulez.',
    },
    released: {
      subject: 'Votre place est rendue : {course}',
      says: 'Votre place est rendue. Vous pouvez vous inscrire de nouveau quand vous voulez.',
    },
    'called off': {
      subject: 'Le jour d’apprentissage est annulé : {course}',
      says: 'Nous le regrettons : ce jour n’a pas lieu. Vous n’avez rien à faire.',
    },
  },
  reminder: {
    giveBack:
      'Si vous ne pouvez pas venir, veuillez rendre la place aujourd’hui sur votre page : quelqu’un d’autre l’attend, et ce qui est versé n’est fait que pour ce jour.',
    place: 'Votre place : {place}.',
    travel: {
      subject: 'Venez-vous toujours apprendre à {studio} le {day} ?',
      prepare: 'Il est temps de penser au trajet et à un lit pour la nuit, si vous en avez besoin.',
    },
    week: {
      subject: 'Votre jour d’apprentissage à {studio} : {place}',
      tell: 'Veuillez nous dire si vous ne pouvez pas venir.',
    },
    near: { subject: 'Avant le {day} à {studio}', bring: 'À apporter : {bring}', wear: 'À porter : {wear}' },
    eve: { subject: 'À bientôt à {studio}, le {day}, {time}', begin: 'Nous commençons ensemble : {place}.' },
    day: { subject: 'Aujourd’hui : {time} à {studio}' },
  },
  open: {
    reading: 'Avant de venir : {what}',
    safety:
      'Comment nous travaillons sans danger n’est pas encore accepté par {who}. Veuillez le lire et l’accepter sur votre page : sans cela personne ne travaille à la paillasse.',
    emergency:
      'Nous ne savons pas encore qui joindre en cas d’urgence, pour {who}. Veuillez nous le dire sur votre page.',
    gear: 'Nous ne connaissons pas encore la taille pour {who} : {what}. Veuillez nous la dire sur votre page, pour que cela aille.',
    deposit: 'L’acompte est encore dû : {what}.',
  },
};
