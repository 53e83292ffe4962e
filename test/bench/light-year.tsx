// The picture of a year of light, with four places on each Friday, against the reckoning of the same year's windows.
import { render } from 'preact-render-to-string';
import { Temporal } from 'temporal-polyfill';
import { lightOnTheWall } from '../../src/daylight/drawing.calc.js';
import { lightWindow } from '../../src/daylight/window.calc.js';
import { LightChart } from '../../src/platform/html/kit/light-chart.js';
import type { Booking } from '../../src/room/days.calc.js';

/** An assumption: a picture may cost twice what reckoning its light costs (it costs a third). */
export const MOST_OF_A_PICTURE = 2;

/** `reckoning` is the yardstick, `drawing` the subject. */
export function lightYear(booking: Booking, first: Temporal.PlainDate) {
  const dates = Array.from({ length: 365 }, (_, index) => first.add({ days: index }));
  const reckoning = () => dates.map((date) => lightWindow(booking, date, booking.lightFloorDegrees));
  const windows = reckoning();
  const places = [9, 11, 13, 15].map((hour, at) => ({
    from: Temporal.PlainTime.from({ hour }),
    until: Temporal.PlainTime.from({ hour: hour + 1 }),
    state: (['open', 'held', 'taken'] as const)[at % 3] ?? 'open',
  }));
  const drawing = () => {
    const days = dates.map((date, at) => ({
      date,
      light: lightOnTheWall(booking.zone, windows[at] ?? null),
      places: date.dayOfWeek === 5 ? places : [],
      closed: false,
    }));
    return render(<LightChart days={days} today={first} names="months" label="A year of light" />);
  };
  return { reckoning, drawing };
}
