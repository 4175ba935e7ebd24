/** A meter as it stands in a routine file, heard, shown and printed: one reader for all of them. */
import { describe, expect, it } from 'vitest';
import { musicXml } from '../../src/music/page/musicxml.ts';
import { stripOf } from '../../src/music/page/strip.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { strokesOfBar } from '../../src/music/sound/click-strokes.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../src/music/tongue/drill.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';

/** An exercise of running eighths in one bar of the meter. */
function exerciseIn(meter: string): Exercise {
  const notes = Array.from({ length: Number.parseInt(meter, 10) }, (_, i) => (i % 5) + 1).join(' ');
  const text = `exercises:\n  odd:\n    meter: ${meter}\n    pattern: ${notes}\n    notes: 1\n`;
  const read = parseRoutine(text, 'a.yaml', () => ({ trouble: 'there is no such file.' }));
  const exercise = 'routine' in read ? read.routine.exercises[0] : undefined;
  if (!exercise) throw new Error(JSON.stringify(read));
  return exercise;
}

/** Which units of the bar are struck as the bar's or a group's first, counted from 1. */
const accents = (meter: string): readonly number[] => {
  const { meter: read, beat, click } = exerciseIn(meter);
  return strokesOfBar(read, { bpm: 60, beat }, click).flatMap(({ at, layer }) =>
    layer === 'bar' || layer === 'group' ? [(at.n * read.unit) / at.d + 1] : [],
  );
};

function drillIn(meter: string): Drill {
  const exercise = exerciseIn(meter);
  const { pattern, beat, notesPerBeat } = exercise;
  const single = readArticulation('single');
  const passage = writeOut({
    pattern: pattern ?? '',
    scale: 'major',
    key: 'C',
    meter: exercise.meter,
    beat,
    notesPerBeat,
    instrument: instrumentNamed('cornet')!,
  });
  if (!isPassage(passage) || typeof single === 'string') throw new Error('cannot be written');
  return drillOf(passage, single);
}

describe('a meter without groups in a routine file', () => {
  // Twos and a last three: common practice, no source.
  it.each([
    ['7/8', [1, 3, 5]],
    ['5/8', [1, 3]],
    ['5/4', [1, 3]],
    ['11/8', [1, 3, 5, 7, 9]],
    ['7/8 (3+2+2)', [1, 4, 6]],
    ['6/8', [1, 4]],
    ['3/4', [1]],
  ])('%s is struck with accents on %j', (meter, units) => {
    expect(accents(meter)).toEqual(units);
  });

  it('is divided at its groups on the note strip', () => {
    const divided = stripOf(drillIn('7/8')).beats.map((beat) => beat.divided);
    expect(divided).toEqual([true, false, true, false, true, false, false]);
  });

  it('is printed with them', () => {
    expect(musicXml(drillIn('5/8'), { title: 'Odd', subtitle: 'C', bpm: null })).toContain(
      '<time><beats>2+3</beats><beat-type>8</beat-type></time>',
    );
  });
});
