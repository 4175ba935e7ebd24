/** A plan explained, one sentence each. */
import { wholeMinutes } from '../../common/time-words.ts';
import type { Minutes } from '../routine/routine.ts';
import type { Candidate } from './block-priority.ts';
import { ABOUT_ORDER } from './blocks-in-turns.ts';
import { type Plan, isRest, totalMinutes, workMinutes } from './plan-items.ts';
import type { ChosenBlock } from './plan-search.ts';

/** What the search maximises, in words. */
const OBJECTIVE =
  'Every block counts its minutes times how due, how weak and how wanted it is, the first minutes of a block most ' +
  '(half of its time keeps 59 % of its value); blocks for every day and those whose day has come count ten times. ' +
  'The warm-up comes first, and the limits for one kind in a row, for high load together and for playing ' +
  'without a rest hold.';

const count = (n: number, word: string): string => (n === 1 ? `one ${word}` : `${n} ${word}s`);
const short = (minutes: Minutes): string => `${Math.round(minutes * 10) / 10}`;

/** 'Shortened to make room: Long tones (3 of 6), Thirds (4 of 8).' */
function shortened(candidates: readonly Candidate[], chosen: readonly ChosenBlock[]): readonly string[] {
  const cut = chosen.flatMap(({ index, minutes }) => {
    const candidate = candidates[index];
    return candidate === undefined || candidate.full - minutes < 0.5
      ? []
      : [`${candidate.title} (${short(minutes)} of ${short(candidate.full)})`];
  });
  return cut.length === 0 ? [] : [`Shortened to make room: ${cut.join(', ')}.`];
}

/** '30 minutes: 5 of 8 blocks, 25 minutes of work and one rest.' */
function summed({ minutes, items }: Pick<Plan, 'minutes' | 'items'>, blocks: number): string {
  const rests = items.filter(isRest).length;
  const left = minutes - totalMinutes(items);
  const played = new Set(items.filter((item) => !isRest(item)).map(({ block }) => block)).size;
  const resting = rests === 0 ? '' : ` and ${count(rests, 'rest')}`;
  const over = left >= 1 ? `; ${wholeMinutes(left)} ${short(left) === '1' ? 'is' : 'are'} left over` : '';
  const work = `${wholeMinutes(workMinutes(items))} of work`;
  return `${wholeMinutes(minutes)}: ${played} of ${count(blocks, 'block')}, ${work}${resting}${over}.`;
}

/** `blocks` is how many there are to choose from. */
export const planSentences = (
  plan: Pick<Plan, 'minutes' | 'items' | 'order'>,
  blocks: number,
  candidates: readonly Candidate[],
  chosen: readonly ChosenBlock[],
): readonly string[] => [summed(plan, blocks), ...shortened(candidates, chosen), OBJECTIVE, ABOUT_ORDER[plan.order]];
