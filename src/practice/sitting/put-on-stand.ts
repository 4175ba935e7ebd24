/** Puts a line on the stand. */
import type { Bpm } from '../../common/units.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { startAt } from '../../ladder/rule/climb.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { expectationOf } from '../../ladder/speed/speed-knowledge.ts';
import { ladderLine } from '../../plan/rotation/ladder-line.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { nameByHand } from '../../plan/rotation/next-turn.ts';
import { type Practice, openPractice } from '../line/line-on-stand.ts';
import type { LineAsked, Stand, Work } from '../stand.ts';
import { keepTurn } from './keys-that-came.ts';
import { type WithKnowledge, askedOf, withKnowledge } from './line-speed.ts';
import { climbToday, speedTogether } from './opening-tempo.ts';

/** A tempo of the player's; else the one at which the line is played together with others, null where it is alone. */
function tempoAsked(known: WithKnowledge, exercise: Exercise, asked: LineAsked, tempo: Bpm | null): Bpm | null {
  const { key, line, together = [] } = asked;
  if (tempo !== null || together.length < 2) return tempo;
  const lines = together.map((articulation) => ladderLine(exercise, { ...line, key, articulation }));
  return speedTogether(known, exercise, lines);
}

/** A line opened where it stands today, or at a tempo of the player's, or of the lines that it takes turns with. */
export function openedLine(known: WithKnowledge, exercise: Exercise, asked: LineAsked, tempo: Bpm | null): Practice {
  const { key, fingering = 'ordinary', blockDrone } = asked;
  const line = ladderLine(exercise, { ...asked.line, key });
  const { climb, reason } = climbToday(known, exercise, line);
  const { drone, drill, remark } = known.prepare(exercise, { ...line, key }, asked.place, blockDrone);
  const bpm = tempoAsked(known, exercise, asked, tempo);
  const at = bpm === null || bpm === climb.bpm ? climb : startAt(bpm, climb.best);
  const slowest =
    tempo === null && at !== climb ? `All of them at ${bpmText(at.bpm)}, where the slowest stands.` : null;
  const said = remark ?? slowest ?? (tempo === null ? reason : null);
  const aims = lineRule(exercise, line.articulation).aim !== null;
  const expectation = aims ? { expectation: expectationOf(known.knowledge, askedOf(known, exercise, line)) } : {};
  const written = { drone, drill, remark: said, blockDrone };
  return openPractice({ exercise, line, key, fingering, climb: at, ...expectation, ...written });
}

const alone = (practice: Practice, toKeep: Work['toKeep']): Work => ({ practice, before: [], toKeep, passed: [] });

/** Put a line on the stand; `toKeep` is kept as soon as it is played. */
export function putOnStand(
  stand: Stand,
  exercise: Exercise,
  asked: LineAsked,
  tempo: Bpm | null,
  toKeep: Work['toKeep'] = keepTurn(exercise, nameByHand(exercise, asked.key, asked.line.articulation)),
): Stand {
  const known = withKnowledge(stand.known);
  const practice = openedLine(known, exercise, asked, tempo);
  return { ...stand, known, view: { screen: 'practice', work: alone(practice, toKeep) } };
}
