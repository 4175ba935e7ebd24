/**
 * Trouble that was to be expected: one sentence for the player (what, where, what would be right), never a stack
 * trace.
 */
export class Trouble extends Error {
  readonly exitCode: number;

  constructor(sentence: string, exitCode = 1) {
    super(sentence);
    this.name = 'Trouble';
    this.exitCode = exitCode;
  }
}
