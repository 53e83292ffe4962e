// What every student reads and agrees to before they stand at the bench. Common practice, no source; the owner can
// follow it with a wording of their own, which counts from version 2.

export interface SafetyWording {
  version: number;
  wording: string;
}

export const FIRST_SAFETY: SafetyWording = {
  version: 1,
  wording: [
    'I wear the goggles and gloves I am given whenever I stand at the bench. I do not wear contact lenses.',
    'I cover cuts. I do not eat, drink or smoke where chemicals are, and no children come into the darkroom.',
    'Silver nitrate harms eyes and stains skin. If anything gets into an eye I say so at once and rinse.',
    'Ether and alcohol catch fire easily. No flame, heater or spark while a bottle of collodion is open.',
    'I mix, pour away or carry nothing that the teacher has not shown me. Waste goes where the teacher says.',
    'If a potassium cyanide fixer is on the bench, only the teacher handles it.',
    'Asthma, pregnancy, sensitive skin: I speak to the teacher privately before the day.',
  ].join('\n'),
};

/** Whether somebody has agreed to the wording that holds; an older one does not count. */
export const hasAgreed = (
  student: { safetyVersion: number | null },
  { version }: Pick<SafetyWording, 'version'>,
): boolean => student.safetyVersion === version;

/** The wording that holds, of the studio's own ones in their order. */
export const holdingSafety = (own: readonly SafetyWording[]): SafetyWording => own.at(-1) ?? FIRST_SAFETY;
