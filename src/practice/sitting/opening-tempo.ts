/** At which tempo a line opens: where it was left today, where the player moved it, or where the marks say. */
import type { Bpm } from '../../common/units.ts';
import { type Line, lineName } from '../../ladder/line.ts';
import { type Climb, startAt } from '../../ladder/rule/climb.ts';
import { rungsOf } from '../../ladder/rule/rungs.ts';
import { climbOf } from '../../ladder/speed/line-history.ts';
import { type Knowledge, startOf } from '../../ladder/speed/speed-knowledge.ts';
import type { Start } from '../../ladder/speed/todays-start.ts';
import { remembered } from '../../common/remembered.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type WithKnowledge, askedOf } from './line-speed.ts';

interface OpeningClimb {
  readonly climb: Climb;
  /** One line for the player; null where the line simply goes on. */
  readonly reason: string | null;
}

const isWarm = ({ lines, today }: WithKnowledge): boolean =>
  Object.values(lines).some(({ lastDay }) => lastDay === today);

const starts = remembered((_knowledge: Knowledge) => new Map<string, Start>());

/** Where the marks say that a line starts on a day: asked by the list for all of its rows at each drawing. */
function startFor(known: WithKnowledge, exercise: Exercise, line: Line): Start {
  const { knowledge, today } = known;
  const name = `${lineName(line)} ${today}`;
  const rungs = rungsOf(lineRule(exercise, line.articulation));
  const start =
    starts(knowledge).get(name) ??
    startOf(knowledge, { ...askedOf(known, exercise, line), warm: isWarm(known) }, rungs);
  starts(knowledge).set(name, start);
  return start;
}

/** A line played today goes on where it was left; on another day it starts where the marks say. */
export function climbToday(known: WithKnowledge, exercise: Exercise, line: Line): OpeningClimb {
  const history = known.lines[lineName(line)];
  if (history && history.lastDay === known.today) return { climb: climbOf(history), reason: null };
  // A tempo chosen by hand for a line without marks is the player's word.
  if (history && history.tallies.length === 0) return { climb: climbOf(history), reason: null };
  const { bpm, reason } = startFor(known, exercise, line);
  return { climb: startAt(bpm, history?.best?.bpm ?? null), reason };
}

/**
 * The one speed of lines that take turns: that of the slowest. `slurred` at 96 and `double` at 84 are both played at
 * 84; each keeps its own ladder.
 */
export const speedTogether = (known: WithKnowledge, exercise: Exercise, lines: readonly Line[]): Bpm =>
  Math.min(...lines.map((line) => climbToday(known, exercise, line).climb.bpm));
