// Not checked by a native reader.
import type { calendar } from '../en/calendar.js';

export const frenchCalendar: typeof calendar = {
  names: { student: ' : vos jours d’apprentissage', workshops: ' : jours d’apprentissage' },
  cancelled: (what) => `Annulé : ${what}`,
  sitting: (studio) => `Séance de pose chez ${studio}`,
  bring: (what) => `À apporter : ${what}`,
  bringNothing: 'Vous n’avez rien à apporter, sauf ce dont nous sommes convenus.',
  light: (from, until) => `Bonne lumière de ${from} à ${until}.`,
  course: (course, studio) => `${course} chez ${studio}`,
  learns: (names) => `Qui apprend : ${names}`,
  wear: (what) => `À porter : ${what}`,
  part: (at, title, where) => `${at} ${title} (${where})`,
  noneLeft: 'Plus de place ; il y a une liste d’attente.',
  left: (left, of) => (left === 1 ? `Reste une place sur ${of}.` : `Restent ${left} places sur ${of}.`),
  leastAge: (years) => `À partir de ${years} ans.`,
  fee: (fee) => `Prix : ${fee}`,
  journey: {
    there: (studio) => `Trajet vers ${studio}`,
    back: (studio) => `Retour de ${studio}`,
    how: (how, long) => `${how} : ${long} de porte à porte.`,
    leave: (when, zone, from) => `Partez au plus tard le ${when}${zone}. Départ : ${from}.`,
    estimate: 'Une estimation : ce que vous dites de votre trajet sur votre page compte davantage.',
    nightAfter: 'Mieux vaut passer aussi la nuit d’après sur place.',
  },
};
