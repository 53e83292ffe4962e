// Not checked by a native reader.
import type { correct } from '../en/correct.js';

export const frenchCorrect: typeof correct = {
  title: 'Vos indications',
  lead: 'Ce que vous changez ici vaut aussitôt, et le studio le voit. Votre jour et votre rang sur la liste restent tels quels.',
  tooLate:
    'Ce formulaire est resté ouvert trop longtemps : rien n’est donc encore changé. Veuillez le relire et l’envoyer de nouveau.',
  you: 'Vous',
  name: 'Votre nom',
  language: 'Nous vous écrivons en',
  who: 'Qui pose',
  whoHint: 'Quelqu’un d’autre à sa place ? Écrivez le nouveau nom.',
  guardian: 'Parent ou tuteur',
  accessToldHint:
    'Vous nous avez dit quelque chose. Nous ne le montrons pas ici ; ce que vous écrivez le remplace, et si vous laissez vide, cela reste. Merci de ne rien dire de votre santé.',
  told: 'Ce que vous nous avez déjà dit',
  takeAway: 'Enlever ce que je vous ai dit à ce sujet',
  keep: 'Garder ces indications',
  back: 'Retour, sans rien changer',
  ask: {
    title: 'Plus de plaques, un autre format, plus de personnes ?',
    says: 'Le studio doit voir si le jour, la lumière et le verre suffisent : cela se demande donc d’abord. Rien ne change avant la réponse du studio.',
    label: 'Demander au studio',
    what: 'Que souhaitez-vous ?',
    asked: 'Vous avez demandé ceci. Écrivez de nouveau pour demander autre chose.',
    button: 'Demander au studio',
  },
};
