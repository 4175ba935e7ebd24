/** The words of `standside ladder`, and how they are read. */
import { harmless } from '../../../common/harmless-text.ts';
import { Trouble } from '../../../common/trouble.ts';
import { type NumberWanted, numberOption, wholeNumber } from '../../options/number-option.ts';

export interface LadderOptions {
  readonly up: string;
  readonly down: string;
  readonly tenseDown: string;
  readonly rungsUp: string;
  readonly rungsDown: string;
  readonly step: string;
  readonly floor: string;
  readonly top: string;
  readonly from?: string;
  readonly to?: string;
  readonly threshold: string;
  readonly slope: string;
  readonly lapse: string;
  readonly tense: string;
  readonly simulate?: string;
  readonly days: string;
  readonly seed: string;
  readonly json?: boolean;
}

/** All that is asked of this command is its options: a wrong one is a wrong command line. */
const WRONG_WORDS = 2;

/** @throws Trouble always. */
export function refuse(sentence: string): never {
  throw new Trouble(harmless(sentence, 300), WRONG_WORDS);
}

export const numberOf = (text: string, option: string, wanted: Omit<NumberWanted, 'option'>): number =>
  numberOption(text, { option, exitCode: WRONG_WORDS, ...wanted });

export const countOf = (text: string, option: string, most: number): number =>
  numberOf(text, option, wholeNumber(1, most));
