// What the tags of the columns mean (the comment of each column, see migrations/0059_whose_data.sql), and how the rows of
// a table are found that are about a person. Pure.

const DONE = ['kept', 'emptied', 'erased', 'numbered', 'row'] as const;
/** What erasing does to a column: nothing, empties it, puts the word, the word and the row's id, or deletes the row. */
export type Done = (typeof DONE)[number];

export type Tag =
  | { of: 'plain' | 'house' | 'words' | 'secret' }
  | { of: 'person'; done: Done; guarded: boolean; ofAnother: boolean };

export interface TaggedColumn {
  table: string;
  column: string;
  /** As PostgreSQL names it: "text", "jsonb", "uuid". */
  type: string;
  nullable: boolean;
  /** The comment; '' where there is none. */
  comment: string;
}

/** Types that tell of nobody by themselves; anything else wants a tag. Dates too: none here is a birth date. */
const NO_WORDS =
  /^(uuid|smallint|integer|bigint|numeric(\(.*\))?|double precision|boolean|date|timestamp.*|time .*|interval|tstzrange)(\[\])?$/;

/** The tag of a column; null where it has none, or one that says nothing. */
export function tagOf(comment: string): Tag | null {
  if (comment === 'plain' || comment === 'house' || comment === 'words' || comment === 'secret')
    return { of: comment };
  const found = /^personal: (\w+)(, guarded)?(, of another)?$/.exec(comment);
  const done = DONE.find((one) => one === found?.[1]);
  return done ? { of: 'person', done, guarded: Boolean(found?.[2]), ofAnother: Boolean(found?.[3]) } : null;
}

/** One sentence for each column that may hold words and has no tag, or one of a table of which nobody knows the rows. */
export function untagged(columns: readonly TaggedColumn[]): string[] {
  return columns.flatMap(({ table, column, type, comment }) => {
    const tag = tagOf(comment);
    if (tag === null && (comment !== '' || !NO_WORDS.test(type))) return [`${table}.${column} has no tag`];
    if (tag?.of === 'person' && !(table in ROWS_ABOUT) && !(table in ROWS_NAMING))
      return [`${table}.${column} is personal, and the rows about a person are not known`];
    return [];
  });
}

/** In what order they are given out; of each table the column that holds one of the ids of a person. */
export const ROWS_ABOUT: Record<string, string> = {
  contact: 'contact_id',
  sitter: 'contact_id',
  consent: 'contact_id',
  sitting: 'sitting_id',
  sitting_day: 'sitting_id',
  plan_wish: 'sitting_id',
  occupancy: 'held_for',
  sign_up: 'sign_up_id',
  student: 'student_id',
  class_attendance: 'student_id',
  plate_made: 'made_id',
  record_entry: 'made_id',
  voucher: 'sitting_id',
  offer: 'for_id',
  reminder: 'sitting_id',
  mail: 'about_id',
  history: 'about_id',
  sitting_act: 'sitting_id',
};

/** Rows that are found by what stands in them: one of the person's ids, or how they are reached. They are deleted. */
export const ROWS_NAMING: Record<string, string> = {
  request_draft: 'answers',
  bring_in_draft: 'source',
  idempotency: 'answer',
};

/** Where a person is named in the studio's own words: each way they are reached, and names of at least two words, since
 * one alone ("Rose") is a word like any other. The longest first. */
export function needlesOf(person: { names: string[]; reached: string[] }): string[] {
  const names = person.names.map((name) => name.trim()).filter((name) => /\S\s+\S/.test(name));
  const reached = person.reached.map((one) => one.trim()).filter((one) => one.length >= 5);
  return [...new Set([...names, ...reached])]
    .filter((one) => one !== ERASED)
    .sort((a, b) => b.length - a.length);
}

/** Stands where a name has to stand. */
export const ERASED = 'erased';

/** SQL: whether one of the texts $2 stands in a column. */
export const namedIn = (column: string) =>
  `exists (select from unnest($2::text[]) n where position(lower(n) in lower(t."${column}"::text)) > 0)`;
