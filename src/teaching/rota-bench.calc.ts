// What a teaching day's bench is made of: steps of a plate with their ranges of seconds, stations, students and
// teams, breaks and light; and whose plate is whose turn. It lays nothing on the clock (see rota.calc.ts).

/** Whole seconds, 0 <= low <= high. */
export interface Seconds {
  low: number;
  high: number;
}

/** Who has hands or face in a step: who makes the plate, who sits for it, both, or nobody (a bath, a rack). */
export type Busy = 'maker' | 'sitter' | 'both' | 'nobody';

/** One step of every plate, in the order in which they are done. */
export interface Step {
  id: string;
  seconds: Seconds;
  busy: Busy;
  /**
   * How it comes after the step before. 'at once': the moment that one ends. 'on time': at once when that one takes
   * its longest, and never earlier than planned. 'waits': it begins a run of its own, whenever there is room.
   */
  follows: 'at once' | 'on time' | 'waits';
  /** Of a step that waits: at most so many seconds after the earliest end of the one before; null: any time. */
  within: number | null;
  /** Needs the day's good light. */
  lit: boolean;
  /** May go on after the end of the day, and does not count as part of it (plates drying). */
  outlasts: boolean;
}

/** A station kept for a plate from the start of one step to the end of another of the same run. */
export interface Hold {
  station: string;
  from: string;
  until: string;
}

/** Never more seconds from one edge to the other, not even when every step takes as long as it can. */
export interface WetClock {
  id: string;
  from: { step: string; edge: 'start' | 'end' };
  until: { step: string; edge: 'start' | 'end' };
  most: number;
}

/** Several alike: tanks, holders, cameras, sinks, places in the darkroom, or hands of the teacher. */
export interface Station {
  id: string;
  /** Somebody stands there: not in a break. */
  attended: boolean;
  units: Unit[];
}

export interface Unit {
  id: string;
  /** Largest plate in mm2 that it takes; null: any. */
  largest: number | null;
  /** The student whose own it is, and who alone works with it. */
  owner?: string | undefined;
}

/** Whether a unit takes the plate of a student. */
export const takes = ({ largest, owner }: Unit, area: number, student: string): boolean =>
  (largest === null || largest >= area) && (owner === undefined || owner === student);

export interface PlateSize {
  id: string;
  /** mm2 */
  area: number;
  /** Seconds of steps that take another time at this size. */
  seconds: Record<string, Seconds>;
}

export interface Student {
  id: string;
  /** Sizes of their plates, one for each turn. */
  plates: string[];
  /** There from so many seconds after midnight; null: from the beginning. */
  from: number | null;
}

export interface Stretch {
  from: number;
  until: number;
}

/** All times are whole seconds on the wall clock since midnight, `until` exclusive. */
export interface Bench {
  day: Stretch;
  /** When plates may be exposed; null: not on that day. */
  light: Stretch | null;
  /** Pauses, and the parts of the day that all take part in: nobody's hands are on a plate. */
  breaks: Stretch[];
  steps: Step[];
  holds: Hold[];
  clocks: WetClock[];
  /** The step that goes by turns: in a team nobody's run with it begins before the turn before began. */
  turnStep: string;
  stations: Station[];
  sizes: PlateSize[];
  students: Student[];
  /** Who work together, by ids of students; each student in exactly one team. */
  teams: string[][];
  /** Varnish where the day has room; null: none today. */
  varnish: Varnish | null;
}

/** Its flame never shares the room with ether: it begins so long after the last collodion was poured. */
export interface Varnish {
  seconds: Seconds;
  station: string;
  /** The step whose end makes a plate ready for it, and the one that leaves ether in the room. */
  after: string;
  ether: string;
  airing: number;
}

/** A plate and its turn. `sitter` is null for who works alone: the teacher or a still life sits. */
export interface Turn {
  plate: string;
  student: string;
  sitter: string | null;
  size: string;
  /** From 1. */
  round: number;
  team: number;
}

/** Pairs in the order given; the last three make one team when the number is odd; who is alone stays alone. */
export function pairsOf(students: readonly string[]): string[][] {
  const teams: string[][] = [];
  for (let at = 0; at < students.length; at += 2) teams.push(students.slice(at, at + 2));
  const last = teams.at(-1);
  if (last?.length === 1 && teams.length > 1) {
    teams.pop();
    teams.at(-1)?.push(...last);
  }
  return teams;
}

/**
 * Each team's plates in their turns: round by round, within a round in the order of the team. The sitter is the next
 * of the team, and from round to round the one after, so that in three everybody sits for everybody.
 */
export function turnsOf(bench: Pick<Bench, 'students' | 'teams'>): Turn[][] {
  const students = new Map(bench.students.map((one) => [one.id, one]));
  return bench.teams.map((ids, team) => {
    const members = ids.filter((id) => students.has(id));
    const rounds = Math.max(0, ...members.map((id) => students.get(id)?.plates.length ?? 0));
    return Array.from({ length: rounds }, (_, round) =>
      members.flatMap((student, at): Turn[] => {
        const size = students.get(student)?.plates[round];
        if (size === undefined) return [];
        const others = members.length - 1;
        const sitter = others === 0 ? null : (members[(at + 1 + (round % others)) % members.length] ?? null);
        return [{ plate: plateOf(student, round + 1), student, sitter, size, round: round + 1, team }];
      }),
    ).flat();
  });
}

/** The plate of a student in a round, the same whatever else changes. */
export const plateOf = (student: string, round: number): string => `${student} ${round}`;
