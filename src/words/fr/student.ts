// Not checked by a native reader.
import type { student } from '../en/student.js';

const ORDINALS = ['première', 'deuxième', 'troisième', 'quatrième', 'cinquième', 'sixième'];
const ordinal = (round: number) => ORDINALS[round - 1] ?? `${round}e`;
const yours = (round: number) => `votre ${ordinal(round)} plaque`;

const STEPS: Record<string, (round: number) => string> = {
  pose: (round) => `Pose et mise au point : ${yours(round)}.`,
  pour: (round) => `Couler le collodion : ${yours(round)}.`,
  set: (round) => `Laisser prendre : ${yours(round)}.`,
  sensitise: (round) => `Au bain d’argent : ${yours(round)}.`,
  load: (round) => `Charger le châssis : ${yours(round)}.`,
  expose: (round) => `Exposer : ${yours(round)}.`,
  develop: (round) => `Développer : ${yours(round)}.`,
  wash: (round) => `Laver : ${yours(round)}.`,
  dry: (round) => `Mettre à sécher : ${yours(round)}.`,
};

export const frenchStudent: typeof student = {
  done: {
    signed: 'C’est arrivé au studio. Veuillez garder l’adresse de cette page : elle est à vous.',
    reminders: 'Merci, c’est noté.',
    language: 'Merci. Vos lettres et votre calendrier sont désormais en français.',
    told: 'Merci, c’est noté.',
    journey: 'Merci, c’est noté. Voyez ci-dessous quand partir.',
    accepted: 'La place est à vous.',
    refused: 'Merci. Vous gardez votre rang sur la liste d’attente.',
    left: 'C’est rendu, et un message à ce sujet est en route.',
  },
  notDone: {
    'ran-out': 'Cette offre avait pris fin, et la place est de nouveau ouverte à d’autres.',
    already: 'C’était déjà rendu, ou une réponse a été donnée entre-temps.',
  },
  lead: {
    requested: 'Le studio a votre souhait et y répondra. Rien n’est encore fixé.',
    waiting: 'Vous êtes sur la liste d’attente de ce jour. Quand des places se libèrent, on vous le demande.',
    offered: 'Des places se sont libérées. Elles sont gardées pour vous jusqu’à la fin de l’offre.',
    signed: 'Vous avez une place. Nous nous en réjouissons.',
    attended: 'Merci de votre venue.',
    did_not_come: 'Ce jour est passé.',
    declined: 'Le studio n’a pas pu vous donner de jour.',
    withdrawn: 'Vous avez retiré votre inscription. Vous pouvez vous inscrire de nouveau quand vous voulez.',
    lapsed:
      'Des offres ont pris fin sans réponse : il n’y en a donc plus. Vous pouvez vous inscrire de nouveau quand vous voulez.',
    released: 'Vous avez rendu votre place. Vous pouvez vous inscrire de nouveau quand vous voulez.',
    called_off: 'Le studio a dû annuler ce jour.',
  },
  offer: {
    title: 'Votre réponse, s’il vous plaît',
    held: (day, time) => `Gardé pour vous jusqu’au ${day}, ${time}.`,
    take: 'Prendre la place',
    refuse: 'Non, mais rester sur la liste',
  },
  release: {
    title: 'Vous ne pouvez pas venir ?',
    says: 'Rendez la place dès que vous le savez : quelqu’un d’autre l’attend peut-être.',
    button: 'Rendre ma place',
    sure: 'Elle est aussitôt libre pour quelqu’un d’autre. On ne peut pas revenir en arrière.',
    yes: 'Oui, la rendre',
  },
  withdraw: {
    title: 'Vous ne voulez plus ?',
    says: 'Retirez votre inscription ; le studio le sait aussitôt.',
    button: 'Retirer mon inscription',
    sure: 'Votre inscription prend fin aussitôt. On ne peut pas revenir en arrière.',
    yes: 'Oui, la retirer',
  },
  about: {
    title: (name) => `À propos de ${name}`,
    size: (gear) => `Taille : ${gear}`,
    access: 'Qu’est-ce qui vous aiderait ici ?',
    accessHint:
      'Un tabouret, une marche, l’ouïe. Rien de votre santé : parlez-en plutôt à la personne qui enseigne.',
    accessTold: 'Vous nous l’avez dit. Ne remplissez ceci que pour le changer.',
    emergency: 'Qui appeler en cas d’urgence ?',
    emergencyHint: 'Privé, pour ce jour seulement ; c’est effacé après.',
    emergencyTold: 'Nous avons quelqu’un à appeler. Ne remplissez ceci que pour le changer.',
    telephone: 'Son numéro de téléphone',
    safety: 'Comment nous travaillons sans danger',
    agreed: 'Lu et accepté.',
    without: 'Sans cela, personne ne se tient à la paillasse.',
    label: 'Sécurité',
    agrees: (name) => `${name} a lu ceci et l’accepte`,
    save: 'Garder',
  },
  day: {
    when: 'Quand',
    atStudio: (when) => `${when}, heure du studio`,
    askedFor: (day) => `Demandé : ${day}`,
    aDay: 'un jour',
    where: 'Où',
    who: 'Qui apprend',
    deposit: { none: 'aucun noté', due: 'à verser', received: 'reçu' },
    depositIs: (deposit, state) => `${deposit} : ${state}`,
  },
  calendarLead: (studio) =>
    `Vos jours d’enseignement chez ${studio} dans le calendrier que vous utilisez déjà. Il se tient à jour de lui-même.`,
  turns: {
    title: 'Vos tours',
    stale: 'Le studio les prévoit de nouveau ; les heures peuvent encore changer.',
    kept: 'Les heures sont les plus tardives prévues. Le jour même, elles peuvent changer un peu.',
    when: 'Quand',
    what: 'Quoi',
    none: (name) => `${name} n’a pas de tour ce jour-là.`,
    somebody: 'quelqu’un',
    stretch: (from, until) => `de ${from} à ${until}`,
    plate: (round, sitter) =>
      `Faire ${yours(round)}${sitter === null ? ' ; personne n’a besoin de poser' : ` ; ${sitter} pose pour vous`}.`,
    holdStill: (name) => `Rester immobile pour ${name}.`,
    sit: (name) => `Poser pour ${name}.`,
    varnish: (round) => `Vernir ${yours(round)}.`,
    break: 'Tous ensemble, ou une pause.',
    clean: (round) => `Nettoyer le verre de ${yours(round)}.`,
    fix: (round) => `Fixer ${yours(round)}.`,
    step: (step, round) => STEPS[step]?.(round) ?? `Travailler à ${yours(round)}.`,
  },
  after: {
    plates: 'Vos plaques',
    none: 'Le studio n’a noté aucune plaque.',
    kept: (keepers, tries, size) =>
      `${keepers} gardée${keepers > 1 ? 's' : ''} sur ${tries} faite${tries > 1 ? 's' : ''}, ${size ?? 'un autre format'}`,
    own: (name, plates) => `${name} : ${plates}`,
    group: (plates) => `De tout le groupe : ${plates}`,
    poured: 'Ce qui a été coulé, et comment c’était préparé',
    asMixed:
      'Tel que le studio l’a préparé pour votre jour. Avant de préparer quoi que ce soit, lisez comment continuer sans danger.',
    card: {
      caption: (formula, batch) => `${formula}, pour ${batch}`,
      ingredient: 'Ingrédient',
      amount: 'Quantité',
      asWritten: 'Tel qu’écrit',
    },
    safely: 'Comment continuer sans danger',
    advice: [
      'Demandez avec chaque flacon la fiche de données de sécurité actuelle du fournisseur, et lisez-la avant d’ouvrir le flacon. Elle passe avant tout ce qui est écrit ici.',
      'Lunettes et gants, chaque fois. Pas de lentilles de contact, les coupures couvertes, aucune nourriture, aucun enfant dans la pièce.',
      'Éther et collodion : de l’air frais, de petits flacons, et ni flamme, ni appareil de chauffage, ni étincelle dans la pièce.',
    ],
    hypo: {
      afterCyanide:
        'Fixez à l’hyposulfite. Le fixateur au cyanure de votre jour n’était que dans les mains de la personne qui enseigne ; sa formule n’est pas donnée.',
      plain: 'Fixez à l’hyposulfite. Les fixateurs au cyanure ne sont pas pour qui travaille seul.',
    },
    law: [
      'Demandez aux autorités de votre lieu ce que vous pouvez garder, en quelle quantité et où, et où vont les déchets d’argent, d’acide et de solvants. Rien n’en va à l’égout.',
      'Là où la loi veut une autorisation ou une personne formée, travaillez avec elle.',
    ],
    apart: 'Ne laissez jamais se rencontrer',
    meet: (ones, others) => `${ones} avec ${others} :`,
  },
};
