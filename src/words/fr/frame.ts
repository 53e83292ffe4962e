// Not checked by a native reader.
import type { frame } from '../en/frame.js';
import { frenchBeside } from './beside.js';

export const frenchFrame: typeof frame = {
  unchecked: 'Cette traduction n’a pas encore été relue par une personne de langue maternelle française.',
  skip: 'Aller au contenu',
  pages: 'Parties du site',
  languages: 'Langues',
  questions: (studio) =>
    studio === undefined ? 'Des questions ?' : `Des questions ? Adressez-vous à ${studio}.`,
  keptWith: 'Tenu avec Plateday',
  ways: {
    open: 'Places libres',
    ask: 'Demander une séance',
    learn: 'Apprendre',
    desk: 'Votre bureau',
    signIn: 'Se connecter',
  },
  signOut: 'Se déconnecter',
  error: 'Erreur : ',
  problem: 'Il y a un problème',
  beside: frenchBeside,
  optional: ' (facultatif)',
  choose: 'Veuillez choisir',
  proposed: {
    title: 'Lieux',
    found: '# lieux ; les flèches choisissent.',
    none: 'Aucun lieu trouvé.',
  },
  day: 'Jour',
  month: 'Mois',
  year: 'Année',
};
