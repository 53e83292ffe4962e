// What was chosen for teaching days on days that cannot be held. Pure.

export const moveField = (sessionId: string) => `teach-${sessionId}`;
export const seenField = (sessionId: string) => `seen-${sessionId}`;

/** The days to call off, each with what was shown of it; and what was not answered. */
export function teachingChosen(sent: Record<string, unknown>): {
  chosen: { sessionId: string; seen: string }[];
  errors: { field: string; message: string }[];
} {
  const errors: { field: string; message: string }[] = [];
  const chosen = Object.entries(sent).flatMap(([name, seen]) => {
    const sessionId = /^seen-([0-9a-f-]{36})$/.exec(name)?.[1];
    if (sessionId === undefined) return [];
    const act = sent[moveField(sessionId)];
    if (act === 'leave') return [];
    if (act === 'off' && typeof seen === 'string') return [{ sessionId, seen }];
    errors.push({ field: moveField(sessionId), message: 'Please choose one of these.' });
    return [];
  });
  return { chosen, errors };
}
