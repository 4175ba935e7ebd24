/** Puts a line on the stand. */
import type { Bpm } from '../../common/units.ts';
import { startAt } from '../../ladder/rule/climb.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { ladderLine } from '../../plan/rotation/ladder-line.ts';
import { nameByHand } from '../../plan/rotation/next-turn.ts';
import { type Practice, openPractice } from '../line/line-on-stand.ts';
import type { LineAsked, Stand, Work } from '../stand.ts';
import { keepTurn } from './keys-that-came.ts';
import { type WithKnowledge, withKnowledge } from './line-speed.ts';
import { climbToday } from './opening-tempo.ts';

/** A line opened where it stands today, or at a tempo of the player's. */
export function openedLine(known: WithKnowledge, exercise: Exercise, asked: LineAsked, tempo: Bpm | null): Practice {
  const { key, fingering = 'ordinary' } = asked;
  const line = ladderLine(exercise, { ...asked.line, key });
  const { climb, reason } = climbToday(known, exercise, line);
  const { drone, drill, remark } = known.prepare(exercise, { ...line, key }, asked.place);
  const at = tempo === null || tempo === climb.bpm ? climb : startAt(tempo, climb.best);
  const said = remark ?? (tempo === null ? reason : null);
  return openPractice({ exercise, line, key, fingering, climb: at, drone, drill, remark: said });
}

const alone = (practice: Practice, toKeep: Work['toKeep']): Work => ({ practice, before: [], toKeep });

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
