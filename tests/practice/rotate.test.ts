import { type DayEntry } from '../../src/diary/entry.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import type { SoundCommand, Span } from '../../src/music/sound/sound-commands.ts';
import { type Rotation, PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';

import { onEvent } from '../../src/practice/stand-events.ts';
import type { Effect } from '../../src/practice/line/line-on-stand.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { type Stand, type StandEvent, openStand } from '../../src/practice/stand.ts';
import { EXERCISE } from './rehearsal.ts';

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');

/** A line in C of an exercise whose keys come round by themselves; the store counts its marks. */
function turnRound(rotation: Partial<Rotation>) {
  const exercise = {
    ...EXERCISE,
    keys: ['C', 'G', 'D'],
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
  const line = { exercise: exercise.id, articulation: 'slurred', key: 'C' };
  let stand: Stand = putOnStand(openStand(given), exercise, { line, key: 'C' }, null);
  const spans: Span[] = [];
  let stored = 0;

  function perform(effect: Effect): void {
    if (effect.type === 'sound') collect(effect.command);
    if (effect.type === 'record')
      send({ type: 'recorded', record: { at: '', day: given.today, ...effect.record } as DayEntry });
    if (effect.type !== 'store') return;
    const { draft } = effect;
    const id = `${(stored += 1)}`;
    if (draft.kind === 'mark') {
      const key = `${draft.line.exercise} · ${draft.line.articulation} · ${draft.line.key}`;
      const before = stand.lines[key]?.tallies ?? [];
      const tally = { day: given.today, bpm: draft.bpm, clean: 1, tense: 0, missed: 0 };
      send({
        type: 'line',
        id: key,
        history: {
          line: draft.line,
          bpm: draft.next,
          cleanRun: 0,
          missedRun: 0,
          best: null,
          lastDay: given.today,
          notesPerBeat: 4,
          tallies: [...before, tally],
        },
      });
    }
    send({ type: 'stored', id });
  }

  function collect(command: SoundCommand): void {
    if (command.ask === 'play' || command.ask === 'then') spans.splice(0, spans.length, ...command.spans);
  }

  function send(event: StandEvent): void {
    const step = onEvent(stand, event);
    stand = step.state;
    step.effects.forEach(perform);
  }

  const hear = (role: Span['role']) => {
    const span = stand.practice!.chain.find((one) => one.role === role);
    if (span)
      send({ type: 'sound', report: { tell: 'beat', span: span.id, bar: 0, beat: 0, beatsInBar: 4, lateBy: 0 } });
  };
  const press = (action: 'start-pause' | 'clean' | 'undo') => send({ type: 'do', action, key: '', now: 0 });
  const repetition = () => {
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(role);
    press('clean');
  };
  press('start-pause');
  return { stand: () => stand, repetition, press, spans };
}

describe('keys that come round', () => {
  it('change after each repetition, in the order of fifths, without stopping', () => {
    const { stand, repetition, spans } = turnRound({ order: 'fifths', change: 'repetition' });
    const keys = [stand().practice?.key];
    for (let k = 0; k < 3; k += 1) {
      repetition();
      keys.push(stand().practice?.key);
      expect(spans[0]?.role).toBe('count-in');
    }
    expect(keys).toEqual(['C', 'G', 'D', 'C']);
  });

  it('change only when the rung does, where the exercise says so', () => {
    const { stand, repetition } = turnRound({ order: 'own', change: 'rung' });
    repetition();
    expect(stand().practice?.key).toBe('C');
    repetition();
    expect(stand().practice?.key).not.toBe('C');
  });

  it('may share one ladder: the best belongs to all keys', () => {
    const { stand, repetition } = turnRound({ order: 'own', change: 'repetition', ladder: 'shared' });
    repetition();
    expect(stand().practice?.line.key).toBe('all keys');
    expect(stand().practice?.key).not.toBe('all keys');
  });

  it('the last mark can still be taken back after the key has changed', () => {
    const { stand, repetition, press } = turnRound({ order: 'fifths', change: 'repetition' });
    repetition();
    expect(stand().practice?.key).toBe('G');
    press('undo');
    expect(stand().practice?.key).toBe('C');
    expect(stand().practice?.climb.cleanRun).toBe(0);
    expect(stand().practice?.due).not.toBeNull();
  });
});

describe('what a critical player found', () => {
  it('undo goes back over several changes of key, one mark at a time', () => {
    const { stand, repetition, press } = turnRound({ order: 'fifths', change: 'repetition' });
    for (let k = 0; k < 3; k += 1) repetition();
    const keys: (string | undefined)[] = [];
    for (let k = 0; k < 3; k += 1) {
      press('undo');
      keys.push(stand().practice?.key);
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
      keys.push(stand().practice?.key);
    }
    expect(keys).toEqual(['G', 'D', 'C', 'G']);
  });

  it('a shared ladder is shared from the first mark on', () => {
    const { stand } = turnRound({ order: 'own', change: 'repetition', ladder: 'shared' });
    expect(stand().practice?.line.key).toBe('all keys');
    expect(stand().practice?.key).toBe('C');
  });
});
