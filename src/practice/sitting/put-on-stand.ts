/** Puts a line on the stand. */
import type { Exercise } from '../../plan/routine/exercise.ts';
import { startAt } from '../../ladder/rule/climb.ts';
import { ladderKey } from '../../plan/rotation/key-rotation.ts';
import type { Bpm } from '../../common/units.ts';
import { drawnByHand, keepDrawn } from './keys-that-came.ts';
import { type Practice, openPractice } from '../line/line-on-stand.ts';
import { climbToday, estimateFor, wallFor, withKnowledge } from './line-speed.ts';
import type { Asked, Stand } from '../stand.ts';

/** A line opened where it stands today, or at a tempo of the player's. */
export function practiceOf(stand: Stand, exercise: Exercise, asked: Asked, tempo: Bpm | null): Practice {
  const { key, fingering } = asked;
  // Where all keys share a ladder, the line is theirs and not the key's.
  const line = exercise.rotation ? { ...asked.line, key: ladderKey(exercise.rotation, key) } : asked.line;
  const { climb, reason } = climbToday(withKnowledge(stand), exercise, line);
  const prepared = stand.prepare(exercise, { ...line, key });
  const at = tempo === null || tempo === climb.bpm ? climb : startAt(tempo, climb.best);
  return openPractice({
    exercise,
    line,
    key,
    fingering: fingering ?? 'ordinary',
    climb: at,
    ...prepared,
    remark: prepared.remark ?? (tempo === null ? reason : null),
  });
}

/** Put a line on the stand; where keys are counted, one chosen by hand counts when it is played. */
export function putOnStand(stand: Stand, exercise: Exercise, asked: Asked, tempo: Bpm | null): Stand {
  const known = withKnowledge(stand);
  const practice = practiceOf(known, exercise, asked, tempo);
  return {
    ...known,
    practice,
    screen: 'practice',
    estimate: estimateFor(known, exercise, practice.line),
    wall: wallFor(known, practice),
    before: [],
    toKeep: keepDrawn(exercise, { drawn: drawnByHand(exercise, asked.key, asked.line.articulation) }),
  };
}
