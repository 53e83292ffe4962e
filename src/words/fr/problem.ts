// Not checked by a native reader.
import type { problem } from '../en/problem.js';

export const frenchProblem: typeof problem = {
  said: {
    bad_input: { title: 'Quelques réponses sont à revoir' },
    not_found: {
      title: 'Il n’y a rien à cette adresse',
      more: 'Ce qui est demandé n’est pas connu ici. Si c’est un lien, veuillez vérifier qu’il a été copié en entier.',
    },
    unknown_studio: { title: 'Il n’y a pas de studio à cette adresse' },
    link_expired: {
      title: 'Ce lien ne vaut plus',
      more: 'Son temps est passé, ou un autre l’a remplacé. Le studio peut vous en donner un nouveau.',
    },
    link_used: { title: 'Ce lien a déjà servi' },
    sign_in_needed: { title: 'Veuillez vous connecter' },
    wrong_sign_in: { title: 'Cette adresse et ce mot de passe ne vont pas ensemble' },
    code_needed: { title: 'Il faut aussi le code de votre authentificateur' },
    not_allowed: { title: 'Ceci est réservé à qui tient le studio' },
    changed_meanwhile: { title: 'Quelqu’un a changé cela entre-temps' },
    form_expired: {
      title: 'Ce formulaire est resté ouvert trop longtemps, ou vient d’un autre site',
      more: 'Rien n’a été fait. Veuillez ouvrir la page de nouveau et envoyer le formulaire encore une fois.',
    },
    place_taken: { title: 'Cette place vient d’être prise' },
    not_an_opening: { title: 'Ce n’est pas une place libre' },
    offer_ran_out: { title: 'Cette offre a pris fin' },
    wrong_state: {
      title: 'Ce n’est plus possible',
      more: 'Une réponse a été donnée entre-temps, ou quelque chose a changé. Veuillez regarder la page de nouveau.',
    },
    short_of_stock: { title: 'Le stock ne suffit pas pour ce jour' },
    same_key_other_request: { title: 'Cette clé a servi pour une autre demande' },
    too_many_requests: { title: 'Trop de demandes à la fois' },
    too_large: { title: 'C’est plus que ce qui peut être envoyé d’un coup' },
    unreadable: { title: 'La demande n’a pas pu être lue' },
    busy: { title: 'Le studio est très occupé ; veuillez réessayer dans un moment' },
    broken: { title: 'Quelque chose s’est cassé de notre côté' },
  },
  wait: (seconds) => `Veuillez attendre ${seconds} secondes.`,
  notInPart: 'Rien de ce que vous avez saisi n’a été fait à moitié. Veuillez réessayer dans un moment.',
  signIn: 'Se connecter',
  home: 'Vers la première page du studio',
  askUs: (id) => `Si vous nous interrogez à ce sujet, veuillez indiquer « ${id} ».`,
  again: {
    title: 'Veuillez envoyer ceci encore une fois',
    kept: 'Le formulaire est resté ouvert trop longtemps, ou le navigateur a été fermé entre-temps. Rien n’a encore été fait, et rien de ce que vous avez saisi n’est perdu.',
    secret:
      'Le formulaire est resté ouvert trop longtemps, ou le navigateur a été fermé entre-temps. Rien n’a encore été fait. Ce que vous avez saisi est gardé, sauf votre mot de passe : veuillez le saisir de nouveau.',
    password: 'Mot de passe',
    send: 'Envoyer maintenant',
    leave: 'Laisser, et aller à la première page du studio',
  },
};
