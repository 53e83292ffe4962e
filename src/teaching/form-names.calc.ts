// Several forms of one kind on one page: each has names of its own, "2/day" and "copy/day" for "day", so that every
// field has one label. Here the names are taken apart again.

const PREFIX = /^(?:\d+|copy)\//;

/** What was sent without the prefix of its form, and the prefix; '' where there is none. */
export function ownNames(sent: Record<string, unknown>): { prefix: string; fields: Record<string, unknown> } {
  const prefix = Object.keys(sent).flatMap((name) => PREFIX.exec(name)?.[0] ?? [])[0] ?? '';
  const fields = Object.entries(sent).map(([name, value]) => [
    name.startsWith(prefix) ? name.slice(prefix.length) : name,
    value,
  ]);
  return { prefix, fields: Object.fromEntries(fields) };
}

/** Problems at the fields of the form they were sent in. */
export const atForm = <P extends { field: string }>(prefix: string, problems: P[]): P[] =>
  problems.map((one) => ({ ...one, field: one.field === '' ? '' : `${prefix}${one.field}` }));
