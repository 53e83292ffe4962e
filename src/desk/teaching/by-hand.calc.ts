// The short form for somebody on the telephone, to the shape of a sign-up. Pure.

type Answers = Record<string, unknown>;
const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');

/** The sign-up as typed, unchecked. Who gives no number is reached by letter. */
export function typedSignUp(answers: Answers): Record<string, unknown> {
  const name = text(answers.name);
  const [telephone, postalAddress] = [text(answers.telephone), text(answers.postalAddress)];
  const names = text(answers.students)
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  const experience = text(answers.experience) || 'none';
  return {
    name,
    reachBy: telephone === '' && postalAddress !== '' ? 'letter' : 'telephone',
    telephone,
    postalAddress,
    students: (names.length === 0 ? [name] : names).map((one) => ({ name: one, experience })),
    anything: text(answers.anything),
    oldEnough: text(answers.oldEnough) === 'yes',
    orWait: text(answers.orWait) === 'yes',
  };
}

/** Problems at the fields of the short form, each field once; a missing name is told at the name only. */
export function problemsOnShortForm<P extends { field: string }>(problems: P[]): P[] {
  const nameMissing = problems.some(({ field }) => field === 'name');
  const seen = new Set<string>();
  return problems.flatMap((one) => {
    const field = one.field.startsWith('students') ? 'students' : one.field;
    if (seen.has(field) || (nameMissing && field === 'students')) return [];
    seen.add(field);
    return [{ ...one, field }];
  });
}
