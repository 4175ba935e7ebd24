/**
 * Trouble that was to be expected, as a value: in which file, and one sentence for the player. `plan/file`'s
 * FileTrouble is the same with a line and a column. What ends a command is thrown instead, see `trouble`.
 */
import { reasonOf } from './file-reasons.ts';

export interface Mishap {
  readonly file: string;
  readonly sentence: string;
}

export const isMishap = (value: unknown): value is Mishap =>
  typeof value === 'object' && value !== null && 'file' in value && 'sentence' in value;

/** `fileMishap(error, path, 'read')`: an error of the file system as a value; any other is a surprise and thrown on. */
export function fileMishap(error: unknown, file: string, doing: 'read' | 'written' | 'opened for writing'): Mishap {
  return { file, sentence: `${file} cannot be ${doing}: ${reasonOf(error, doing === 'read' ? 'read' : 'write')}.` };
}
