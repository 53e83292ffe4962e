// Not checked by a native reader.
import type { light } from '../en/light.js';
import { MONTHS, WEEKDAYS } from './dates.js';

export const frenchLight: typeof light = {
  noDays: 'Aucun jour n’est ouvert aux demandes en ce moment.',
  months: 'Les mois',
  month: ({ month, year }) => `${MONTHS[month - 1]} ${year}`,
  weekday: ({ dayOfWeek }) => WEEKDAYS[dayOfWeek - 1] ?? '',
  dayOfMonth: ({ day, month }) => `${day === 1 ? '1er' : day} ${MONTHS[month - 1]}`,
  dayAt: (weekday, dayOfMonth) => `${weekday} ${dayOfMonth} à `,
  none: 'Pas de bonne lumière ce jour-là',
  good: (from, until) => `Bonne lumière de ${from} à ${until}`,
  noneSaid: 'Pas de bonne lumière.',
  stretch: (from, until) => `de ${from} à ${until}`,
  said: { open: 'Libre : ', held: 'Réservé : ', taken: 'Pris : ' },
  legend: {
    light: 'bonne lumière',
    open: 'une place est libre',
    held: 'gardée pour quelqu’un',
    taken: 'prise',
  },
};
