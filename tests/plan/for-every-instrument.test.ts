/**
 * Every instrument of the table has something to begin with, and all of it lies on the instrument. The ranges are the
 * table's: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { fullRange } from '../../src/music/pitch/range.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { writtenInRound } from '../../src/plan/routine/one-voice-round.ts';
import { isForInstrument } from '../../src/plan/routine/routine.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';
import { forInstrument } from '../../src/runtime/own/for-instrument.ts';

const loaded = loadRoutines([`${packageRoot()}/routines`]);

const routinesFor = (id: string) =>
  loaded.routines.map(({ routine }) => routine).filter((routine) => isForInstrument(routine, id));

describe('every instrument', () => {
  it('has a routine for the first years and one for some years', () => {
    for (const { id } of INSTRUMENTS) {
      const levels = routinesFor(id).map(({ level }) => level);
      expect(levels, id).toContain('first years');
      expect(levels, id).toContain('some years');
    }
  });

  it('has all of its routines written out, nothing out of its range', () => {
    for (const instrument of INSTRUMENTS) {
      const { low, high } = fullRange(instrument);
      for (const routine of routinesFor(instrument.id))
        for (const exercise of routine.exercises)
          for (const key of exercise.pattern === null ? [] : exercise.keys) {
            const where = `${routine.id}: ${exercise.name} in ${key} on ${instrument.id}`;
            const written = writeOut(writtenInRound({ ...exercise, pattern: exercise.pattern ?? '' }, key, instrument));
            if (!isPassage(written)) throw new Error(`${where}: ${written.troubles[0]?.sentence}`);
            const heights = written.notes.flatMap(({ pitch }) => (pitch ? [pitch.written] : []));
            expect(Math.min(...heights), where).toBeGreaterThanOrEqual(low);
            expect(Math.max(...heights), where).toBeLessThanOrEqual(high);
          }
    }
  });

  it('is offered what is for it, and the rest as being for others', () => {
    for (const { id } of INSTRUMENTS) {
      const { routines, exercises } = forInstrument(loaded, id);
      const offered = routines.filter(({ elsewhere }) => !elsewhere);
      expect(offered.map((one) => one.id)).toEqual(routinesFor(id).map((one) => one.id));
      const names = new Set(exercises.filter(({ elsewhere }) => !elsewhere).map((one) => one.id));
      for (const one of offered.flatMap((routine) => routine.exercises)) expect(names, id).toContain(one.id);
    }
    const flute = forInstrument(loaded, 'flute').exercises.filter(({ elsewhere }) => !elsewhere);
    expect(flute.some(({ title }) => title === 'Lip flexibility, three partials')).toBe(false);
    expect(forInstrument(loaded, null).exercises.some(({ elsewhere }) => elsewhere)).toBe(false);
  });
});

describe('for whom a routine is', () => {
  const read = (text: string) => parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
  const rest = '\nexercises: {a: {pattern: 1 2 | 1}}\n';

  it('may be a family, or instruments by any of their names', () => {
    const parsed = read(`for: [flutes, Bb cornet]${rest}`);
    if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
    expect(parsed.routine.for).toContain('piccolo');
    expect(parsed.routine.for).toContain('cornet');
    expect(parsed.routine.for).not.toContain('oboe');
  });

  it('is named where it is nobody known', () => {
    const parsed = read(`for: flutez${rest}`);
    if (!('troubles' in parsed)) throw new Error('read');
    expect(parsed.troubles[0]?.sentence).toBe(`'for' is "flutez"; did you mean 'flutes'?`);
  });
});
