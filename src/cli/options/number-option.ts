/** Numbers from the command line. */
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';

interface Range {
  /** What would be right, as it goes on after 'it must be'. */
  readonly right: string;
  /** Any number when absent. */
  readonly fits?: (value: number) => boolean;
}

export interface NumberWanted extends Range {
  /** Without its dashes. */
  readonly option: string;
  /** Of the program, when the number is refused; 1 when absent. */
  readonly exitCode?: number;
}

/**
 * `numberOption('4', { option: 'bars', ...wholeNumber(1, 8) })` is 4.
 * @throws Trouble for anything else: "--bars is '9'; it must be a whole number from 1 to 8."
 */
export function numberOption(text: string, { option, right, fits, exitCode = 1 }: NumberWanted): number {
  const value = Number(text.trim());
  if (text.trim() !== '' && Number.isFinite(value) && (fits?.(value) ?? true)) return value;
  throw new Trouble(`--${option} is '${harmless(text, 40)}'; it must be ${right}.`, exitCode);
}

export const wholeNumber = (low: number, high: number): Range => ({
  right: `a whole number from ${low} to ${high}`,
  fits: (value) => Number.isInteger(value) && value >= low && value <= high,
});
