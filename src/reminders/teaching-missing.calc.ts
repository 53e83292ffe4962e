// What is still open before a teaching day, of what a reminder tells besides. Pure: as it stands at the moment.
import { hasAgreed, type SafetyWording } from '../teaching/safety.calc.js';
import type { OwnView } from '../teaching/day-views.schemas.js';
import type { OpenPoint } from './letters.schemas.js';
import { TELLS, type Tells } from './reminder-rules.schemas.js';

/**
 * In the order of TELLS, those asked for and no others; nothing once everything is told. To be read stays open until the
 * day: nobody knows whether they did.
 */
export function openPoints(
  { course, students, signUp }: Pick<OwnView, 'course' | 'students' | 'signUp'>,
  safety: Pick<SafetyWording, 'version'>,
  tells: readonly Tells[],
): OpenPoint[] {
  const names = (of: typeof students) => of.map(({ name }) => name);
  const sized = course.gear.filter((one) => one.sized).map(({ name }) => name);
  const without = students.filter(({ gear }) => sized.some((name) => (gear[name] ?? '').trim() === ''));
  const lacking = sized.filter((name) => without.some(({ gear }) => (gear[name] ?? '').trim() === ''));
  const points: Record<Tells, OpenPoint> = {
    reading: { tells: 'reading', names: [], what: course.reading },
    safety: { tells: 'safety', names: names(students.filter((one) => !hasAgreed(one, safety))), what: '' },
    emergency: {
      tells: 'emergency',
      names: names(students.filter(({ emergency }) => emergency.telephone.trim() === '')),
      what: '',
    },
    gear: { tells: 'gear', names: names(without), what: lacking.join(', ') },
    deposit: {
      tells: 'deposit',
      names: [],
      what: signUp.deposit === 'due' ? course.deposit || 'the deposit' : '',
    },
  };
  return TELLS.filter((one) => tells.includes(one))
    .map((one) => points[one])
    .filter(({ names: who, what }) => who.length > 0 || what !== '');
}
