/**
 * Where the packaged exercises lie, read as a player would. Which register a title means, and where an instrument has
 * it: common practice, no source.
 */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { type Passage, endsOf } from '../../src/music/pattern/passage.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { INSTRUMENTS, type Instrument, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { midiOf } from '../../src/music/pitch/note-names.ts';
import { fullRange } from '../../src/music/pitch/range.ts';
import { octaveJump, roundOn, writtenInRound } from '../../src/plan/routine/one-voice-round.ts';
import { isDrawn, keysInOrder } from '../../src/plan/rotation/key-order.ts';
import { rotationOf } from '../../src/plan/rotation/key-rotation.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { openStand } from '../../src/practice/stand.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { keeping, played } from '../practice/keeping.ts';

const { routines } = loadRoutines([join(packageRoot(), 'routines')]);
const family = (id: string): readonly Instrument[] =>
  INSTRUMENTS.filter((one) => one.family === instrumentNamed(id)?.family);

/** Every packaged exercise with notes, and the instruments of the family it is written for. */
const ALL = routines.flatMap(({ routine }) =>
  routine.exercises.flatMap((exercise) =>
    exercise.pattern === null ? [] : [{ routine: routine.id, exercise, instruments: family(routine.instrument) }],
  ),
);

function passage(exercise: Exercise, key: string, instrument: Instrument): Passage | null {
  const result = writeOut(writtenInRound({ ...exercise, pattern: exercise.pattern ?? '' }, key, instrument));
  return isPassage(result) ? result : null;
}

const lowsOf = (exercise: Exercise, instrument: Instrument): readonly (number | null)[] =>
  keysInOrder(exercise.keys, rotationOf(exercise).order)
    .flat()
    .map((key) => {
      const found = passage(exercise, key, instrument);
      return (found && endsOf(found)?.low.written) ?? null;
    });

const packaged = (name: string): Exercise => {
  const found = ALL.find(({ exercise }) => exercise.name === name);
  if (!found) throw new Error(name);
  return found.exercise;
};
const round = (name: string, on: string) => {
  const found = roundOn(packaged(name), instrumentNamed(on) as Instrument);
  if (!found) throw new Error(`${name} on ${on}`);
  return { low: found.lowest.written, high: found.highest.written };
};

describe('the packaged exercises', () => {
  it('lie where the table says, on every instrument of their family', async () => {
    const rows = ALL.flatMap(({ routine, exercise, instruments }) => {
      const place = exercise.place ? ` (${Object.entries(exercise.place).flat().join(' ')})` : '';
      const cells = instruments.map((instrument) => {
        const found = roundOn(exercise, instrument);
        const notes = found ? `${found.lowest.name.padEnd(4)} ${found.highest.name.padEnd(4)}` : 'not in one octave';
        return `    ${instrument.id.padEnd(22)} ${[notes, ...(found?.jumps ?? [])].join(' ')}`.trimEnd();
      });
      return [`${routine}: ${exercise.title}${place}`, `    ${exercise.pattern?.trim()}`, ...cells];
    });
    await expect(`${rows.join('\n')}\n`).toMatchFileSnapshot('../fixtures/packaged-notes.txt');
  });

  it('never jump by an octave without a word, and only where no other octave of the key would do', () => {
    for (const { exercise, instruments } of ALL) {
      const { order } = rotationOf(exercise);
      if (isDrawn(order)) continue;
      for (const instrument of instruments) {
        const keys = keysInOrder(exercise.keys, order).flat();
        const lows = lowsOf(exercise, instrument);
        keys.forEach((key, i) => {
          const [before, low] = [lows.at(i - 1) ?? null, lows[i] ?? null];
          if (before === null || low === null || Math.abs(low - before) <= 7) return;
          const [from, to] = [keys.at(i - 1) ?? key, key].map((one) => passage(exercise, one, instrument));
          expect(octaveJump(from ?? null, to ?? null), `${exercise.name} ${key}`).toMatch(/begins an octave/u);
          const nearer = low > before ? -12 : 12;
          const ends = to && endsOf(to);
          const range = fullRange(instrument);
          const isForced =
            (ends?.low.written ?? 0) + nearer < range.low || (ends?.high.written ?? 0) + nearer > range.high;
          expect(isForced || i === 0, `${exercise.name} ${key} on ${instrument.id}`).toBe(true);
        });
      }
    }
  });

  it('keep each rotation of the instrument they are written for in one voice', () => {
    const jumps = routines.flatMap(({ routine }) =>
      routine.exercises.flatMap((exercise) => {
        const found = roundOn(exercise, instrumentNamed(routine.instrument) as Instrument);
        return (found?.jumps ?? []).map((sentence) => `${exercise.name}: ${sentence}`);
      }),
    );
    // Only where the round begins again, an octave of keys having gone by.
    expect(jumps.toSorted()).toEqual([
      'finger-change: After E♭, G begins an octave lower, so that all keys keep to one voice.',
      'one-note-ends: After G, A begins an octave lower, so that all keys keep to one voice.',
    ]);
  });
});

describe('what a title promises', () => {
  it('is high where a fanfare stands in the upper octave', () => {
    for (const on of [
      'cornet',
      'trumpet',
      'c-trumpet',
      'soprano-cornet',
      'tenor-horn',
      'baritone',
      'trombone-treble-clef',
    ])
      expect(round('high-fanfare', on), on).toEqual({ low: midiOf('A4'), high: midiOf('C6') });
  });

  it('is low where the flute goes down to its low register', () => {
    expect(round('low-register', 'flute')).toEqual({ low: midiOf('C4'), high: midiOf('A4') });
    expect(round('low-register', 'alto-flute').high).toBeLessThanOrEqual(midiOf('C5'));
  });

  it('is below the break in the clarinet pupil’s chalumeau, and across it where it says so', () => {
    for (const on of ['clarinet', 'a-clarinet', 'eb-clarinet', 'bass-clarinet']) {
      for (const name of ['low-notes', 'up-and-down', 'five-finger', 'soft-tongue', 'skipping'])
        expect(round(name, on).high, `${name} on ${on}`).toBeLessThanOrEqual(midiOf('Bb4'));
      expect(round('the-bridge', on)).toEqual({ low: midiOf('A4'), high: midiOf('C5') });
    }
  });

  it('is an octave that a flute overblows from its lowest notes', () => {
    expect(round('harmonics', 'flute')).toEqual({ low: midiOf('C4'), high: midiOf('Eb5') });
  });

  it('is low for long tones over a low drone, and the row of harmonics begins on the lowest fingerings', () => {
    expect(round('low-tones', 'flute')).toEqual({ low: midiOf('C4'), high: midiOf('G#4') });
    expect(round('tone-octaves', 'flute')).toEqual({ low: midiOf('D4'), high: midiOf('A5') });
    expect(round('harmonic-row', 'flute')).toEqual({ low: midiOf('C4'), high: midiOf('D6') });
  });

  it('is one harmonic series after another where the lips slur, down to all three valves', () => {
    for (const on of ['cornet', 'trumpet', 'tenor-horn', 'euphonium'])
      expect(round('lip-bends', on), on).toEqual({ low: midiOf('F#3'), high: midiOf('C5') });
  });
});

describe('a block that says where it is played', () => {
  it('goes before its exercise, on the stand', () => {
    const text =
      'exercises: {tones: {pattern: 1 | 2 | 1, register: high, work: clock, keys: [G]}}\n' +
      'parts: [{part: A, blocks: [{play: tones, register: low}, {play: tones, from: g4}, {play: tones}]}]\n';
    const parsed = parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
    if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
    const { routine } = parsed;
    const prepare = prepareFor(instrumentNamed('cornet') as Instrument, 440);
    const [exercise] = routine.exercises;
    const first = routine.parts[0]?.blocks.map(({ place }) => {
      const line = { exercise: 'tones', articulation: 'slurred', key: 'G' };
      return prepare(exercise as Exercise, line, place).drill?.notes[0]?.pitch?.name;
    });
    expect(first).toEqual(['G3', 'G4', 'G5']);
    const given = { today: '2026-11-25', routines: [routine], exercises: routine.exercises, lines: {}, records: [] };
    const dials = { click: 0.5, drone: 0.3, tapOffset: 0 };
    const { stand, send } = played(planned(openStand({ ...given, prepare, notices: [], dials })), keeping(given.today));
    send({ type: 'do', action: 'open', key: '', now: 1 });
    const { view } = stand();
    expect(view.screen === 'block' && view.tone?.drill?.notes[0]?.pitch?.name).toBe('G3');
  });
});
