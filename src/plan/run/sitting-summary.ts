/** The end of a sitting: what was done, what was reached, what held back, where to start tomorrow. */
import { type LineHistory } from '../../ladder/speed/line-history.ts';
import { type DayEntry } from '../../diary/entry.ts';
import { lineName } from '../../ladder/line.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { seeded } from '../../common/chance.ts';
import type { Bpm } from '../../common/units.ts';
import { minutesAndSeconds } from '../../common/time-words.ts';
import { dayPlus } from '../../common/days.ts';

import { playedBefore } from '../today/played-before.ts';

import { type Routine, exerciseOf } from '../routine/routine.ts';
import { type RunItem } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import type { Run } from './run.ts';
import { isCandidate, blockPriorities } from '../today/block-priority.ts';

export interface Summary {
  readonly done: readonly {
    readonly title: string;
    readonly played: string;
    readonly of: string;
    readonly state: RunItem['state'];
  }[];
  readonly total: string;
  /** Highest rungs first held today. */
  readonly bests: readonly { readonly line: string; readonly bpm: Bpm }[];
  /** One sentence each, the heaviest first. */
  readonly heldBack: readonly string[];
  /** Where to start tomorrow, after the warm-up, and why. */
  readonly tomorrow: readonly { readonly title: string; readonly reason: string }[];
}

const MOST = 3;
/** Fewer repetitions say nothing. */
const LEAST_REPETITIONS = 3;

function doneOf(items: readonly RunItem[]): Summary['done'] {
  return items
    .filter((item) => !isRest(item) && (item.played > 0 || item.state !== 'open'))
    .map(({ title, played, length, state }) => ({
      title,
      played: minutesAndSeconds(played),
      of: minutesAndSeconds(length),
      state,
    }));
}

const titled = (routine: Routine, { line }: LineHistory): string => {
  const title = exerciseOf(routine, line.exercise)?.title;
  return title === undefined ? lineName(line) : `${title}, ${line.articulation}, in ${withSigns(line.key)}`;
};

const bestsOf = (routine: Routine, day: string, lines: readonly LineHistory[]): Summary['bests'] =>
  lines.flatMap((line) => (line.best?.day === day ? [{ line: titled(routine, line), bpm: line.best.bpm }] : []));

interface Trouble {
  readonly weight: number;
  readonly sentence: string;
}

const bad = ({ tense, missed }: LineHistory['tallies'][number]): number => missed + tense / 2;

/** A line that was less than clean today, at the tempo where most was missed or tense. */
function troubleOf(routine: Routine, day: string, line: LineHistory): readonly Trouble[] {
  const today = line.tallies.filter((tally) => tally.day === day);
  const worst = today.toSorted((a, b) => bad(b) - bad(a))[0];
  if (worst === undefined) return [];
  const all = worst.clean + worst.tense + worst.missed;
  const weight = bad(worst) / all;
  if (all < LEAST_REPETITIONS || weight < 1 / 3) return [];
  const tense = worst.tense > 0 ? `, ${worst.tense} tense` : '';
  return [
    {
      weight: bad(worst),
      sentence: `${titled(routine, line)}: ${worst.clean} of ${all} clean at ${bpmText(worst.bpm)}${tense}.`,
    },
  ];
}

function tensionsOf(routine: Routine, day: string, records: readonly DayEntry[]): readonly Trouble[] {
  return records.flatMap((record) => {
    if (record.kind !== 'tension' || record.day !== day || record.level < 3) return [];
    const title = record.exercise === null ? null : (exerciseOf(routine, record.exercise)?.title ?? record.exercise);
    return [
      { weight: record.level, sentence: `Tension ${record.level} of 4${title === null ? '' : ` after ${title}`}.` },
    ];
  });
}

function heldBackOf(
  routine: Routine,
  day: string,
  records: readonly DayEntry[],
  lines: readonly LineHistory[],
): readonly string[] {
  const all = [...lines.flatMap((line) => troubleOf(routine, day, line)), ...tensionsOf(routine, day, records)];
  return all
    .toSorted((a, b) => b.weight - a.weight)
    .slice(0, MOST)
    .map(({ sentence }) => sentence);
}

/** The blocks that count most tomorrow, by the same measure as the plan's. */
function tomorrowOf(
  routine: Routine,
  day: string,
  records: readonly DayEntry[],
  lines: readonly LineHistory[],
  seed: number,
): Summary['tomorrow'] {
  return blockPriorities(routine, routine.parts, playedBefore(dayPlus(day, 1), records, lines), seeded(seed))
    .filter(isCandidate)
    .filter(({ block }) => !block.warmUp && block.content.is !== 'rest')
    .toSorted((a, b) => b.priority - a.priority)
    .slice(0, MOST)
    .map(({ title, reason }) => ({ title, reason }));
}

/** From the run as it ended and all that is known after it. Records and lines hold this sitting too. */
export function summaryOf(
  routine: Routine,
  run: Run,
  day: string,
  records: readonly DayEntry[],
  lines: readonly LineHistory[],
  seed: number,
): Summary {
  const worked = run.items.filter((item) => !isRest(item));
  return {
    done: doneOf(run.items),
    total: minutesAndSeconds(worked.reduce((sum, { played }) => sum + played, 0)),
    bests: bestsOf(routine, day, lines),
    heldBack: heldBackOf(routine, day, records, lines),
    tomorrow: tomorrowOf(routine, day, records, lines, seed),
  };
}
