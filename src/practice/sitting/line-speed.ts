/** What the marks say about the lines on the stand: worked out from what is known, remembered where it costs. */
import { remembered } from '../../common/remembered.ts';
import { dayNumber } from '../../common/days.ts';
import { type KeyName, type Line, lineName } from '../../ladder/line.ts';
import {
  type LineQuestion,
  type Knowledge,
  type LineEstimate,
  type PlayedLine,
  estimateOf,
  isSure,
  learnAllLines,
  learnLineAgain,
  wallAhead,
} from '../../ladder/speed/speed-knowledge.ts';
import type { Wall } from '../../ladder/wall/wall.ts';
import type { NotesPerSecond } from '../../common/units.ts';
import { notesPerSecond } from '../../music/time/meter.ts';
import { countedOnBeat } from '../../music/tongue/vibrato.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { type Crossing, crossing } from '../../plan/rotation/single-double-crossing.ts';
import type { Practice } from '../line/line-on-stand.ts';
import { rungsNow } from '../line/line-state.ts';
import type { KnownSoFar, LineKnown } from '../stand.ts';

export type WithKnowledge = KnownSoFar & { readonly knowledge: Knowledge };

const learnt = remembered((lines: KnownSoFar['lines']) => learnAllLines(Object.values(lines)));

/** All that is known, speed included: worked out once, when it is first asked for. */
export const withKnowledge = (known: KnownSoFar): WithKnowledge => ({
  ...known,
  knowledge: known.knowledge ?? learnt(known.lines),
});

/** Its only mark was taken back: what other lines lend it remains. */
function without(knowledge: Knowledge, name: string): Knowledge {
  const lines = new Map(knowledge.lines);
  lines.delete(name);
  return { ...knowledge, lines };
}

/** After something was kept: what is known of its line, and of nothing else. */
export function withLine(known: KnownSoFar, { name, history }: LineKnown): KnownSoFar {
  const { [name]: _, ...others } = known.lines;
  const lines = history ? { ...others, [name]: history } : others;
  const { knowledge } = known;
  return {
    ...known,
    lines,
    knowledge: knowledge && (history ? learnLineAgain(knowledge, history) : without(knowledge, name)),
  };
}

/** What a question about a line's speed needs to say. */
export const askedOf = ({ today }: KnownSoFar, exercise: Exercise, line: Line): LineQuestion => ({
  line,
  notesPerBeat: countedOnBeat(line.articulation, exercise.notesPerBeat),
  rule: lineRule(exercise, line.articulation),
  day: dayNumber(today),
});

/** One answer for each line and day, as long as nothing new is known. */
function forEachLine<Result>(work: (known: WithKnowledge, practice: Practice) => Result) {
  const answers = new WeakMap<Knowledge, Map<string, Result>>();
  return (known: KnownSoFar, practice: Practice): Result | null => {
    if (!known.knowledge) return null;
    const of = answers.get(known.knowledge) ?? new Map<string, Result>();
    answers.set(known.knowledge, of);
    const name = `${lineName(practice.line)} ${known.today}`;
    if (!of.has(name)) of.set(name, work({ ...known, knowledge: known.knowledge }, practice));
    return of.get(name) as Result;
  };
}

/** The speed estimate of the line on the stand; null while nothing has been learnt. */
export const estimateFor: (known: KnownSoFar, practice: Practice) => LineEstimate | null = forEachLine(
  (known, { exercise, line }) => estimateOf(known.knowledge, askedOf(known, exercise, line)),
);

/** The wall that the line on the stand is in front of, or null. */
export const wallFor: (known: KnownSoFar, practice: Practice) => Wall | null = forEachLine((known, practice) =>
  wallAhead(known.knowledge, askedOf(known, practice.exercise, practice.line), rungsNow(practice)),
);

const isPlayed = (lines: Readonly<Record<string, PlayedLine>>, line: Line): boolean =>
  (lines[lineName(line)]?.tallies.length ?? 0) > 0;

/** Where single tonguing tires and double or triple takes over; null unless both are known in this key. */
export function crossingOf(known: WithKnowledge, exercise: Exercise, key: KeyName): Crossing | null {
  const line = (articulation: string): Line => ({ exercise: exercise.id, articulation, key });
  const multiple = exercise.articulations.find((name) => name === 'double' || name === 'triple');
  if (!multiple || !isPlayed(known.lines, line('single')) || !isPlayed(known.lines, line(multiple))) return null;
  const [single, other] = ['single', multiple].map((articulation) =>
    estimateOf(known.knowledge, askedOf(known, exercise, line(articulation))),
  ) as [LineEstimate, LineEstimate];
  if (!isSure(single) || !isSure(other)) return null;
  const speed = ({ bpm }: LineEstimate): NotesPerSecond => notesPerSecond(bpm, exercise.notesPerBeat);
  return crossing(speed(single), speed(other), multiple);
}
