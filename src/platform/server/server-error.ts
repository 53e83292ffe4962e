/** Why the database server cannot be had; the message is one plain sentence for a person. */
export class ServerError extends Error {
  constructor(
    message: string,
    readonly reason: 'in_use' | 'port_taken' | 'other_version' | 'failed' = 'failed',
  ) {
    super(message);
    this.name = 'ServerError';
  }
}

/** The last lines of what a program said, on one line, to stand at the end of a sentence. */
export function lastLines(text: string, count = 4): string {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  return lines.slice(-count).join(' | ') || 'it said nothing';
}
