// Not checked by a native reader.
import type { studio } from '../en/studio.js';

const days = (count: number) => (count === 1 ? 'un jour' : `${count} jours`);

export const frenchStudio: typeof studio = {
  title: 'Places libres',
  ask: 'Demander une séance',
  open: 'Ces places sont libres. Touchez-en une pour demander ce jour, ou demandez tout jour qui vous convient : les heures sont celles du studio.',
  stillAsk: 'Vous pouvez tout de même demander : des places sont rendues, et le studio tient une liste.',
  predicted: 'La durée pendant laquelle on reste immobile est prévue d’après la hauteur du soleil',
  confirmed: '.',
  notConfirmed: ' ; ses valeurs pour le ciel ne sont pas confirmées.',
  weather: 'C’est le temps du jour qui décide.',
  lookAtLight: 'Voir la lumière d’un jour',
  journey: 'Combien dure le trajet jusqu’ici, et quand partir ?',
  noPlace: 'Aucune place n’est libre en ce moment.',
  all: {
    taken: 'Toutes les places sont prises en ce moment.',
    closed: 'Le studio est fermé tous les jours que l’on peut demander en ce moment.',
    dark: 'Tous les jours que l’on peut demander en ce moment, il y a trop peu de lumière pour une plaque.',
  },
  on: {
    taken: (count) => `pour ${days(count)}, toutes les places sont prises`,
    closed: (count) => `pour ${days(count)}, le studio est fermé`,
    dark: (count) => `pour ${days(count)}, il y a trop peu de lumière pour une plaque`,
  },
  mixed: (parts) =>
    `Aucune place n’est libre en ce moment : ${parts.slice(0, -1).join(' ; ')} ; et ${parts.at(-1)}.`,
  holdStill: (from, to, most) =>
    `rester immobile ${from === to ? `environ ${from}` : `de ${from} à ${to}`} secondes par temps clair, jusqu’à ${most} par temps couvert`,
};
