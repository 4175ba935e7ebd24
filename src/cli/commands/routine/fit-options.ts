/** The words of `standside routine fit`. Each is read by a function that throws Trouble for a wrong one. */
import { seedOf as seedOfText } from '../../../common/chance.ts';
import { didYouMean } from '../../../common/nearest-word.ts';
import { Trouble } from '../../../common/trouble.ts';
import { shown } from '../../../plan/file/place-in-file.ts';
import type { Minutes, Routine } from '../../../plan/routine/routine.ts';
import { type PlanAsked, wrongMinutes } from '../../../plan/today/todays-plan.ts';
import { numberOption, wholeNumber } from '../../options/number-option.ts';

export interface FitWords {
  readonly minutes: string;
  readonly order?: string;
  readonly parts?: string;
  readonly seed?: string;
}

export function minutesOf({ minutes: text }: FitWords): Minutes {
  const minutes = numberOption(text, { option: 'minutes', right: 'a number like 25' });
  const sentence = wrongMinutes(minutes);
  if (sentence !== null) throw new Trouble(`--minutes: ${sentence}`);
  return minutes;
}

/** Nothing where the routine's own order is to hold. */
export function orderOf({ order }: FitWords): Pick<PlanAsked, 'order'> {
  if (order === undefined) return {};
  if (order === 'blocked' || order === 'interleaved') return { order };
  throw new Trouble(`--order is ${shown(order)}; write blocked or interleaved.`);
}

/** Nothing where all parts may come in. */
export function partsOf({ parts: text }: FitWords, { parts }: Routine): Pick<PlanAsked, 'parts'> {
  if (text === undefined) return {};
  const asked = text.split(',').map((part) => part.trim());
  const known = parts.map(({ id }) => id);
  const unknown = asked.find((part) => !known.includes(part));
  if (unknown === undefined) return { parts: asked };
  throw new Trouble(
    `There is no part ${shown(unknown)}; ${didYouMean(unknown, known, `the parts are ${known.join(', ')}.`)}`,
  );
}

const HIGHEST_SEED = 999_999_999;

/** @param usual what the seed is made from where none is asked for */
export const seedOf = ({ seed }: FitWords, usual: string): number =>
  seed === undefined ? seedOfText(usual) : numberOption(seed, { option: 'seed', ...wholeNumber(0, HIGHEST_SEED) });
