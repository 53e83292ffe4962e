// Not checked by a native reader. Sources keep their own names.
import type { meeting } from '../en/meeting.js';

export const frenchMeeting: typeof meeting = {
  advice:
    'Suivez la fiche de données de sécurité actuelle du fournisseur et les règles de votre lieu, et faites appel à un professionnel agréé là où la loi en veut un. Ce qui est écrit ici aide à prévoir ; ce n’est ni une étiquette ni un premier secours.',
  rules: {
    'cyanide and acid': {
      effect:
        'Du gaz cyanhydrique, qui tue. Le révélateur, le bain d’argent et une plaque dont le révélateur n’est pas rincé sont acides aussi.',
      source: 'SLAC, Potassium Cyanide Safe Handling Guideline, 20 mai 2013',
    },
    'cyanide and oxidiser': {
      effect: 'Peut réagir violemment ; l’eau de Javel et le cyanure donnent un gaz toxique.',
      source: 'SLAC, Potassium Cyanide Safe Handling Guideline (nitrites, chlorates) ; le reste de mémoire',
    },
    'cyanide and light metal': {
      effect: 'Donnés comme incompatibles : pas de cyanure dans des récipients d’aluminium ou de zinc.',
      source: 'ABC of Safety in the Biological Sciences, cyanure de potassium',
    },
    'nitric acid and alcohol': {
      effect: 'Chaleur, feu et vapeurs toxiques ; s’il contient de l’argent, un explosif peut se former.',
      source: 'de mémoire',
    },
    'nitric acid and peroxides': { effect: 'Feu ou explosion.', source: 'de mémoire' },
    'silver and ammonia': {
      effect:
        'Des composés d’argent explosifs, surtout s’ils sont gardés ; jamais près des déchets d’argent.',
      source: 'de mémoire',
    },
    'bleach and acid': { effect: 'Du chlore gazeux.', source: 'de mémoire' },
    'bleach and ammonia': { effect: 'Du gaz chloramine, toxique.', source: 'de mémoire' },
    'thiosulfate and bleach': {
      effect: 'Réagit avec chaleur ; dégage un gaz toxique.',
      source: 'de mémoire',
    },
    'thiosulfate and acid': {
      effect: 'Du dioxyde de soufre, et le fixateur est gâté : rincez d’abord la plaque du révélateur.',
      source: 'de mémoire',
    },
    'oxidiser and fire': {
      effect: 'Le comburant nourrit un feu : tenez-le loin des alcools, du coton, des gommes et du papier.',
      source: 'Chief Medical, fiche de données de sécurité M-D6-009, nitrate d’argent',
    },
  },
};
