/**
 * Half a year of an invented player's days, block by block and mark by mark: the same for the same seed. What happens
 * is a matter of chance; how the ladder moves is the project's own rule's.
 */
import { type Chance, seeded } from '../../common/chance.ts';
import { dateOf, dayNumber, mondayOf } from '../../common/days.ts';
import type { Milliseconds, Seconds } from '../../common/units.ts';
import type { Entry, Happening, TensionLevel } from '../../diary/entry.ts';
import { entryIds } from '../../journal/entry-ids.ts';
import { type Line, lineName } from '../../ladder/line.ts';
import { type Climb, afterMark, startAt } from '../../ladder/rule/climb.ts';
import { nearestRung, rungsOf } from '../../ladder/rule/rungs.ts';
import { type SimulatedPlayer, nextDay, playOnce } from '../../ladder/settling/simulated-player.ts';
import { barLength } from '../../music/time/meter.ts';
import { divide, format, toNumber } from '../../music/time/ratio.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import { type Block, type Part, type Routine, exerciseOf } from '../../plan/routine/routine.ts';
import { atOf } from '../clock.ts';
import { GROWS, STANDS_STILL, inventedPlayer } from './invented-player.ts';

export interface DemoAsked {
  readonly routine: Routine;
  /** The player's day on which the demo is looked at; nothing was played on it yet. */
  readonly today: string;
  /** Minutes east of UTC. */
  readonly offset: number;
  readonly seed: number;
}

const DAYS = 182;
/** Two weeks by the sea, in the summer of the story. */
const AWAY = { from: 74, to: 86 } as const;
const DAY: Milliseconds = 86_400_000;
/** The sitting begins at seven in the evening. */
const EVENING = 19 * 3_600_000;
const MOST_MARKS = 12;

const NOTES: readonly string[] = [
  'Air first: the low ones spoke at once.',
  'Tired after the band, stopped early.',
  'Double in B flat still trips over bar two.',
  'Light tongue, and it ran by itself.',
  'New mouthpiece cushion? No: more breath.',
];

interface LineSoFar {
  readonly player: SimulatedPlayer;
  readonly climb: Climb;
  readonly day: number;
}

/** What the story remembers while it is told. */
interface Telling {
  readonly asked: DemoAsked;
  readonly chance: Chance;
  readonly entries: Entry[];
  readonly lines: Map<string, LineSoFar>;
  readonly times: Map<string, number>;
  readonly tell: (happening: Happening) => void;
  /** Moves the story's clock on. */
  readonly wait: (seconds: Seconds) => void;
}

/** Every other time the line that the player is after, else the next of all its lines. */
function lineOf(exercise: Exercise, time: number): Line {
  const after = [STANDS_STILL, GROWS].find((line) => line.exercise === exercise.id);
  if (after && time % 2 === 0) return after;
  const cell = after ? (time - 1) / 2 : time;
  const { keys, articulations } = exercise;
  return {
    exercise: exercise.id,
    key: keys[cell % keys.length]!,
    articulation: articulations[Math.floor(cell / keys.length) % articulations.length]!,
  };
}

function lineSoFar({ lines, chance }: Telling, exercise: Exercise, line: Line, day: number): LineSoFar {
  const known = lines.get(lineName(line));
  if (known) return { ...known, player: nextDay(known.player, chance, Math.max(1, day - known.day)), day };
  const rule = lineRule(exercise, line.articulation);
  const rungs = rungsOf(rule);
  return { player: inventedPlayer(exercise, line), climb: startAt(rungs[nearestRung(rungs, rule.start)]!), day };
}

/** Bars of a repetition with its breath and its count-in, at a tempo. */
function lasts({ meter, beat, bars, breathBars, countInBars }: Exercise, bpm: number): Seconds {
  const beats = toNumber(divide(barLength(meter), beat));
  return ((bars + breathBars + countInBars) * beats * 60) / bpm;
}

function playMarks(telling: Telling, exercise: Exercise, day: number, length: Seconds, before: number): number {
  const time = telling.times.get(exercise.id) ?? 0;
  telling.times.set(exercise.id, time + 1);
  const line = lineOf(exercise, time);
  const rule = lineRule(exercise, line.articulation);
  const rungs = rungsOf(rule);
  let { player, climb } = lineSoFar(telling, exercise, line, day);
  player = { ...player, today: before };
  let left = length;
  let marks = 0;
  for (; left > 0 && marks < MOST_MARKS; marks += 1) {
    const { bpm } = climb;
    telling.wait(Math.max(14, lasts(exercise, bpm)));
    left -= Math.max(14, lasts(exercise, bpm));
    const played = playOnce(player, bpm, telling.chance);
    player = played.player;
    climb = afterMark(climb, played.mark, rule, rungs);
    telling.tell({
      kind: 'mark',
      ...line,
      mark: played.mark,
      bpm,
      beat: format(exercise.beat),
      notesPerBeat: exercise.notesPerBeat,
      cleanUp: rule.cleanUp,
      missedDown: rule.missedDown,
      ...(rule.tenseDown === null ? {} : { tenseDown: rule.tenseDown }),
      next: climb.bpm,
      by: 'player',
    });
  }
  telling.lines.set(lineName(line), { player, climb, day });
  return marks;
}

function exerciseOfBlock({ asked: { routine } }: Telling, { content }: Block, day: number): Exercise | null {
  if (content.is === 'exercise') return exerciseOf(routine, content.exercise);
  if (content.is !== 'pool') return null;
  const items = routine.pools.find(({ id }) => id === content.pool)?.items ?? [];
  return exerciseOf(routine, items[day % Math.max(1, items.length)] ?? '');
}

function tension(telling: Telling, exercise: Exercise | null, highLoad: boolean, before: number): void {
  if (telling.chance() > 0.5) return;
  const level = Math.min(4, Math.floor(telling.chance() * (1.6 + (highLoad ? 1.4 : 0) + before / 60)));
  telling.tell({ kind: 'tension', level: level as TensionLevel, exercise: exercise?.id ?? null });
}

/** One block; gives the marks of the sitting so far. */
function playBlock(telling: Telling, part: Part, block: Block, day: number, before: number): number {
  const { routine } = telling.asked;
  const exercise = exerciseOfBlock(telling, block, day);
  const length = block.minutes * 60;
  const about = {
    kind: 'block',
    routine: routine.id,
    part: part.id,
    block: block.id,
    length,
    exercise: exercise?.id ?? null,
  } as const;
  telling.tell({ ...about, event: 'started', played: 0 });
  const played = Math.round(length * (0.75 + 0.25 * telling.chance()));
  const marks = exercise && hasLadder(exercise) ? playMarks(telling, exercise, day, played, before) : 0;
  if (marks === 0) telling.wait(played);
  telling.tell({ ...about, event: 'done', played });
  tension(telling, exercise, block.highLoad, before + marks);
  return before + marks;
}

function playDay(telling: Telling, day: number): void {
  let marks = 0;
  for (const part of telling.asked.routine.parts) {
    for (const block of part.blocks) {
      const isDue = day % Math.max(1, Math.round(block.everyDays)) === 0;
      if (isDue && block.kind !== 'rest') marks = playBlock(telling, part, block, day, marks);
    }
    telling.wait(60);
  }
  if (telling.chance() < 0.12)
    telling.tell({ kind: 'note', text: NOTES[Math.floor(telling.chance() * NOTES.length)] ?? '' });
}

const isSunday = (day: number): boolean => mondayOf(dateOf(day)) === day - 6;

const isPlayed = (day: number, nth: number, chance: Chance): boolean =>
  !isSunday(day) && chance() > 0.08 && (nth < AWAY.from || nth > AWAY.to);

/** The half-year up to the day before today. */
export function halfYear(asked: DemoAsked): readonly Entry[] {
  const entries: Entry[] = [];
  let wall: Milliseconds = 0;
  let day = '';
  const nextId = entryIds(null, () => wall);
  const chance = seeded(asked.seed);
  const tell = (happening: Happening): void => {
    wall += 1000;
    entries.push({ v: 1, id: nextId(), at: atOf(wall, asked.offset), day, ...happening } as Entry);
  };
  const wait = (seconds: Seconds): void => void (wall += Math.round(seconds * 1000));
  const telling: Telling = { asked, chance, entries, lines: new Map(), times: new Map(), tell, wait };
  const first = dayNumber(asked.today) - DAYS;
  for (let nth = 0; nth < DAYS; nth += 1) {
    if (!isPlayed(first + nth, nth, chance)) continue;
    day = dateOf(first + nth);
    wall = (first + nth) * DAY + EVENING - asked.offset * 60_000;
    playDay(telling, first + nth);
  }
  return entries;
}
