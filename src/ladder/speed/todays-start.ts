/** Where a line starts today, and why: one line for the player, who can always overrule it. */
import { type DayNumber } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';

import {
  type Belief,
  type Marking,
  type Normal,
  chanceOfClean,
  together,
  weakPrior,
  weightsOn,
} from './speed-estimate.ts';
import { SHARE_SOUGHT } from './estimate-grid.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungFrom } from '../rule/rungs.ts';

export interface Start {
  readonly bpm: Bpm;
  /** One line of plain text. */
  readonly reason: string;
}

export interface StartInput {
  readonly rule: LadderRule;
  readonly rungs: Rungs;
  readonly marking: Marking;
  readonly belief: Belief;
  readonly prior: Normal;
  /** Highest rung held; null until one is. */
  readonly best: Bpm | null;
  /** The fastest that was clean on this line, the slowest tried where nothing was; absent before any mark. */
  readonly reached?: Bpm | null;
  readonly day: DayNumber;
  /** Something was played today already; absent first thing in the day. */
  readonly warm?: boolean;
  /** For a line without marks, over the log of its tempo: what other keys and articulations of its exercise say. */
  readonly family?: Normal | null;
  /** The same from all lines there are. */
  readonly others?: Normal | null;
}

/** First thing in the day: so many rungs below what is safe. Common practice, no source. */
const RUNGS_BELOW = 2;
const rungsBelow = ({ warm }: Pick<StartInput, 'warm'>): number => (warm ? 0 : RUNGS_BELOW);
/** How far other exercises may move the start of a line whose own exercise has no marks: a tenth. */
const MOST_MOVED = Math.log(1.1);
/** And of a line without a best no further above the fastest that was clean on it. */
const MOST_ABOVE = 1.1;
/** A break of so many days is a lay-off. */
const LAY_OFF_DAYS = 7;
/** Then 3 % lower for each week, 20 % at most. Common practice, no source: go back gently after a break. */
const LOWER_PER_WEEK = 0.03;
const LOWEST_SHARE = 0.8;

/** The highest rung where a clean repetition is likely enough; the lowest one if none is. */
function likelyRung({ rungs, marking, belief, prior, day }: Omit<StartInput, 'rule' | 'best'>): Bpm {
  const weights = weightsOn(belief, prior, day);
  let low = 0;
  let high = rungs.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (chanceOfClean(weights, marking(rungs[middle]!)) >= SHARE_SOUGHT) low = middle;
    else high = middle;
  }
  return rungs[low]!;
}

const awayOf = ({ belief, day }: StartInput): number => day - (belief.day ?? day);

const atOrBelow = (rungs: Rungs, bpm: Bpm): Bpm => {
  const rung = rungs[nearestRung(rungs, bpm)]!;
  return rung > bpm ? rungFrom(rungs, rung, -1) : rung;
};

/** The exercise was never played: its author's start, moved a little by what other exercises say. */
function ofAuthor({ rule, rungs, others }: StartInput): Start {
  const own = rungs[nearestRung(rungs, rule.start)]!;
  const said = others ? together(others, weakPrior(rule)).mean - weakPrior(rule).mean : 0;
  const by = Math.exp(Math.min(Math.max(said, -MOST_MOVED), MOST_MOVED));
  const bpm = Math.min(rungs[nearestRung(rungs, rule.start * by)]!, Math.max(atOrBelow(rungs, rule.target), own));
  if (bpm === own) return { bpm, reason: `Start at ${bpmText(bpm)}: the exercise's own start, not played yet.` };
  const way = bpm > own ? 'above' : 'below';
  return {
    bpm,
    reason: `Start at ${bpmText(bpm)}: not played yet; a little ${way} its own start, by your other exercises.`,
  };
}

/** Its own exercise was played: where its other keys and articulations and its author point, or two rungs below. */
function ofFamily(input: StartInput, family: Normal): Start {
  const { rule, rungs } = input;
  const safe = Math.min(likelyRung({ ...input, prior: together(family, weakPrior(rule)) }), rule.target);
  const bpm = rungFrom(rungs, atOrBelow(rungs, safe), -rungsBelow(input));
  const where = input.warm ? 'where' : 'below where';
  const reason = `Start at ${bpmText(bpm)}: not played yet; ${where} its other keys and articulations point.`;
  return { bpm, reason };
}

const unplayed = (input: StartInput): Start => (input.family ? ofFamily(input, input.family) : ofAuthor(input));

function afterLayOff({ rungs }: StartInput, safe: Bpm, days: number): Start {
  const share = Math.max(LOWEST_SHARE, 1 - LOWER_PER_WEEK * Math.floor(days / 7));
  const bpm = Math.min(rungFrom(rungs, safe, -RUNGS_BELOW), atOrBelow(rungs, safe * share));
  return { bpm, reason: `Start at ${bpmText(bpm)}: below ${bpmText(safe)}, after ${days} days without this line.` };
}

/** Why there: 'two rungs below 97, where 9 of 10 are clean', or a bound that lies lower still. */
function whyThere({ best, warm }: StartInput, bpm: Bpm, safe: Bpm, wanted: Bpm): string {
  const where = 'where 9 of 10 are clean';
  const room = safe > bpm ? `, below ${bpmText(safe)}, ${where}` : '';
  if (bpm < wanted) return `${best === null ? 'a tenth above the fastest that was clean' : 'your best'}${room}`;
  if (warm) return where;
  return bpm === safe ? 'the lowest rung' : `two rungs below ${bpmText(safe)}, ${where}`;
}

/**
 * First thing in the day two rungs below what is safe, later at it; lower after a lay-off. Never above the best, but at
 * it where that lies further below: who plays six clean repetitions of a line a day still climbs. A line without marks
 * starts near where its exercise's other lines point, or near its author's start.
 */
export function startToday(input: StartInput): Start {
  if (input.belief.marks === 0) return unplayed(input);
  const { rungs, best, reached } = input;
  const safe = likelyRung(input);
  const most = atOrBelow(rungs, best ?? (reached ?? safe) * MOST_ABOVE);
  const days = awayOf(input);
  if (days >= LAY_OFF_DAYS) return afterLayOff(input, Math.min(safe, most), days);
  const wanted = rungFrom(rungs, safe, -rungsBelow(input));
  const bpm = Math.min(wanted, most);
  return { bpm, reason: `Start at ${bpmText(bpm)}: ${whyThere(input, bpm, safe, wanted)}.` };
}
