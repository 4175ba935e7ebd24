import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import { type Rotation, PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { climbNow } from '../../src/practice/line/line-state.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { openStand, practiceOf } from '../../src/practice/stand.ts';
import { keeping, played } from './keeping.ts';
import { EXERCISE } from './rehearsal.ts';

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');

/** A line in C of an exercise whose keys come round by themselves; the store counts its marks. */
function turnRound(rotation: Partial<Rotation>, other: Partial<Exercise> = {}) {
  const exercise = {
    ...EXERCISE,
    keys: ['C', 'G', 'D'],
    ...other,
    rotation: { ...PLAIN_ROTATION, ...rotation },
    ladder: { ...EXERCISE.ladder, cleanUp: 2 },
  };
  const given = {
    today: '2026-11-25',
    routines: [],
    exercises: [exercise],
    lines: {},
    records: [],
    prepare: prepareFor(cornet!, 440),
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  };
  const [key = 'C'] = exercise.keys;
  const line = { exercise: exercise.id, articulation: 'slurred', key };
  const program = played(putOnStand(openStand(given), exercise, { line, key }, null), keeping(given.today));
  const { stand, send } = program;
  const spans = (): readonly Span[] =>
    program.effects
      .flatMap((effect) =>
        effect.type === 'sound' && (effect.command.ask === 'play' || effect.command.ask === 'then')
          ? [effect.command.spans]
          : [],
      )
      .at(-1) ?? [];

  const hear = (role: Span['role']) => {
    const span = practiceOf(stand())!.chain.find((one) => one.role === role);
    if (span)
      send({ type: 'sound', report: { tell: 'beat', span: span.id, bar: 0, beat: 0, beatsInBar: 4, lateBy: 0 } });
  };
  const press = (action: 'start-pause' | 'clean' | 'undo') => send({ type: 'do', action, key: '', now: 0 });
  const repetition = () => {
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(role);
    press('clean');
  };
  press('start-pause');
  return { stand, repetition, press, spans };
}

describe('a key that leaves the voice of the one before', () => {
  it('is announced with what it forces: an octave and a fifth on F sharp begins at the bottom of the range', () => {
    const other = { keys: ['E', 'F', 'F#'], pattern: '1 3 5 8 | 10 12 r r', notesPerBeat: 1 };
    const { stand, repetition } = turnRound({ order: 'chromatic', change: 'repetition' }, other);
    repetition();
    expect(practiceOf(stand())?.key).toBe('F');
    expect(practiceOf(stand())?.remark).not.toMatch(/octave/u);
    repetition();
    const { key, remark, drill } = practiceOf(stand())!;
    expect([key, remark]).toEqual(['F#', 'After F, F♯ begins an octave lower, so that all keys keep to one voice.']);
    expect(drill?.notes[0]?.pitch?.name).toBe('F#3');
  });
});

describe('keys that come round', () => {
  it('change after each repetition, in the order of fifths, without stopping', () => {
    const { stand, repetition, spans } = turnRound({ order: 'fifths', change: 'repetition' });
    const keys = [practiceOf(stand())?.key];
    for (let k = 0; k < 3; k += 1) {
      repetition();
      keys.push(practiceOf(stand())?.key);
      expect(spans()[0]?.role).toBe('count-in');
    }
    expect(keys).toEqual(['C', 'G', 'D', 'C']);
  });

  it('change only when the rung does, where the exercise says so', () => {
    const { stand, repetition } = turnRound({ order: 'own', change: 'rung' });
    repetition();
    expect(practiceOf(stand())?.key).toBe('C');
    repetition();
    expect(practiceOf(stand())?.key).not.toBe('C');
  });

  it('may share one ladder: the best belongs to all keys', () => {
    const { stand, repetition } = turnRound({ order: 'own', change: 'repetition', ladder: 'shared' });
    repetition();
    expect(practiceOf(stand())?.line.key).toBe('all keys');
    expect(practiceOf(stand())?.key).not.toBe('all keys');
  });

  it('the last mark can still be taken back after the key has changed', () => {
    const { stand, repetition, press } = turnRound({ order: 'fifths', change: 'repetition' });
    repetition();
    expect(practiceOf(stand())?.key).toBe('G');
    press('undo');
    expect(practiceOf(stand())?.key).toBe('C');
    expect(climbNow(practiceOf(stand())!).cleanRun).toBe(0);
    expect(practiceOf(stand())?.due).not.toBeNull();
  });
});

describe('what a critical player found', () => {
  it('undo goes back over several changes of key, one mark at a time', () => {
    const { stand, repetition, press } = turnRound({ order: 'fifths', change: 'repetition' });
    for (let k = 0; k < 3; k += 1) repetition();
    const keys: (string | undefined)[] = [];
    for (let k = 0; k < 3; k += 1) {
      press('undo');
      keys.push(practiceOf(stand())?.key);
    }
    expect(keys).toEqual(['D', 'G', 'C']);
    expect(stand().marks).toEqual([]);
  });

  it('a line opened by hand is followed by the next key, and that by the one after it', () => {
    const { stand, repetition } = turnRound({ order: 'own', change: 'rung' });
    const keys: (string | undefined)[] = [];
    for (let k = 0; k < 4; k += 1) {
      repetition();
      repetition();
      keys.push(practiceOf(stand())?.key);
    }
    expect(keys).toEqual(['G', 'D', 'C', 'G']);
  });

  it('a shared ladder is shared from the first mark on', () => {
    const { stand } = turnRound({ order: 'own', change: 'repetition', ladder: 'shared' });
    expect(practiceOf(stand())?.line.key).toBe('all keys');
    expect(practiceOf(stand())?.key).toBe('C');
  });
});
