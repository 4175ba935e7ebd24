/** What comes round where a file says nothing of it: lists in the order in which they are written. */
import { describe, expect, it } from 'vitest';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { nextTurn } from '../../src/plan/rotation/next-turn.ts';
import { turnName } from '../../src/plan/rotation/turn.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';

function exerciseThat(says: string): Exercise {
  const parsed = parseRoutine(`exercises: {a: {pattern: 1 | 2, ${says}}}`, 'own.yaml', () => ({ trouble: 'none' }));
  if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine.exercises[0] as Exercise;
}

function turns(says: string, many: number): readonly string[] {
  const exercise = exerciseThat(says);
  const came: string[] = [];
  for (let i = 0; i < many; i += 1) {
    const narrowed = { keys: null, articulations: null, once: false };
    const turn = nextTurn({
      exercise,
      narrowed,
      came,
      histories: [],
      isEdge: () => false,
      seed: 3,
      laid: null,
      today: '2026-11-25',
    });
    if (turn) came.push(turnName(turn));
  }
  return came;
}

describe('lists in a file', () => {
  it('come in their order: all keys, then the next step of the vibrato, slow then fast', () => {
    expect(turns('keys: [G, A], articulations: pulses 2 to 4', 7)).toEqual([
      'G · pulses 2',
      'A · pulses 2',
      'G · pulses 3',
      'A · pulses 3',
      'G · pulses 4',
      'A · pulses 4',
      'G · pulses 2',
    ]);
    expect(turns('articulations: [pulses 3, pulses 6, pulses 4]', 3)).toEqual([
      'C · pulses 3',
      'C · pulses 6',
      'C · pulses 4',
    ]);
    expect(exerciseThat('articulations: pulses 6 to 4').articulations).toEqual(['pulses 6', 'pulses 5', 'pulses 4']);
    expect(exerciseThat('articulations: pulses').articulations).toEqual([
      'pulses 3',
      'pulses 4',
      'pulses 5',
      'pulses 6',
    ]);
  });

  it('go before nothing that the file says', () => {
    expect(exerciseThat('keys: [G, A], rotate: drawn').rotation?.order).toBe('drawn');
    expect(exerciseThat('keys: all major').rotation).toBeUndefined();
    expect(exerciseThat('keys: [G]').rotation).toBeUndefined();
  });

  it.each(['pulses 1 to 4', 'pulses 3 to 13', 'pulses 3 to'])('are no steps of vibrato in %s', (words) => {
    const text = `exercises: {a: {pattern: 1 | 2, articulations: ${words}}}`;
    const parsed = parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
    expect('troubles' in parsed && parsed.troubles[0]?.sentence).toMatch(
      /is no way of tonguing: .* pulses 4 for vibrato/u,
    );
  });
});
