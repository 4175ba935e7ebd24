import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { drillJson, drillText } from '../../src/cli/output/drill-listing.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { type DrillWords, drillAsked, writeDrill } from '../../src/runtime/asked/drill-asked.ts';

const folder = mkdtempSync(join(tmpdir(), 'standside-drill-'));
afterAll(() => rmSync(folder, { recursive: true }));

const RUN: Exercise = {
  id: 'run',
  name: 'run',
  file: 'own',
  title: 'Run',
  kind: 'technique',
  material: null,
  pattern: '1 2 3 4 5 4 3 2 | 1',
  scale: 'major',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 2,
  bars: 2,
  breathBars: 1,
  countInBars: 1,
  noMark: 'wait',
  keys: ['C'],
  articulations: ['double'],
  ladder: DEFAULT_RULE,
  click: PLAIN_CLICK,
  cues: [],
};
const asked = (words: DrillWords, exercise: Exercise = RUN) => drillAsked(exercise, words, null);

describe('a drill that is asked for', () => {
  it('may stand in any key and tonguing, not only those of the exercise', () => {
    const drill = asked({
      key: 'e flat minor',
      articulation: 'slur 2 tongue 2',
      instrument: 'tenor-horn',
      syllables: 'd-g',
    });
    expect(
      drill.notes.slice(0, 5).map((note) => `${note.pitch?.name} ${note.pitch?.concert} ${note.syllable}`),
    ).toEqual(['Eb4 54 D', 'F4 56 ', 'Gb4 57 D', 'Ab4 59 D', 'Bb4 61 D']);
  });

  it.each<[DrillWords, RegExp]>([
    [{ key: 'H' }, /'H' is no key: write a letter from A to G/],
    [{ articulation: 'quadruple' }, /'quadruple' is no way of tonguing: write slurred/],
    [{ instrument: 'cornte' }, /--instrument 'cornte' is none that is known; did you mean 'cornet'\?/],
    [{ range: 'C6 to C4' }, /The range C6 to C4 stands on its head/],
    [{ syllables: 'tk' }, /'tk' is no pair of syllables/],
    [{ fit: 'squeeze' }, /--fit 'squeeze': give octave .* or short/],
    [
      { range: 'C4 to F4' },
      /that was asked for: G4 in bar 1 lies above it\. .*abbreviated form of 1 bar\. Ask for it with --fit short\.$/u,
    ],
    [{ key: '\u001b[2J' }, /^'\P{Cc}*' is no key/u],
  ])('%j is one sentence', (words, sentence) => {
    expect(() => asked(words)).toThrow(sentence);
  });

  it('says when there is nothing to write out', () => {
    expect(() => asked({}, { ...RUN, pattern: null })).toThrow(
      "'Run' is material of your own; only an exercise with a pattern can be written out.",
    );
  });

  it('can be cut to what fits', () => {
    const short = asked({ range: 'C4 to F4', fit: 'short' });
    expect([short.placed, short.bars, short.notes.length]).toEqual(['abbreviated', 1, 1]);
  });
});

describe('a drill on paper', () => {
  const report = { exercise: 'run', drill: asked({ key: 'D' }), bpm: 120, a4: 440 };

  it('is a line for each note', () => {
    expect(drillText(report).split('\n').slice(0, 6)).toEqual([
      'run · D major (F# C#) · double',
      'B-flat cornet, 4/4, 4 notes/s at 1/4 = 120',
      'bar  beat  in beat  length  note  written  concert  syllable',
      '  1     1  0        1/8     D4         62       60  T',
      '  1     1  1/2      1/8     E4         64       62  K',
      '  1     2  0        1/8     F#4        66       64  T',
    ]);
  });

  it('is JSON with the frequency of equal temperament, f = 440 x 2^((m - 69) / 12)', () => {
    const { notes, ...head } = drillJson(report) as { notes: readonly { concert: number; hertz: number }[] };
    expect(head).toMatchObject({
      key: 'D major',
      fifths: 2,
      notesPerSecond: 4,
      bars: 2,
      placed: 'easy',
      instrument: { id: 'cornet', transposition: -2 },
    });
    // Equal temperament, A4 = 440 Hz: C4 = 60 = 261.6256 Hz (mathematics).
    expect(notes[0]).toMatchObject({
      at: '0',
      inBeat: '0',
      length: '1/8',
      name: 'D4',
      written: 62,
      concert: 60,
      hertz: 261.6256,
      syllable: 'T',
    });
    for (const { concert, hertz } of notes) expect(hertz).toBeCloseTo(440 * 2 ** ((concert - 69) / 12), 3);
  });
});

describe('a drill in a file', () => {
  const heading = { title: 'Run', subtitle: 'D major', bpm: 90 };

  it('is written by its ending and never over another unless told to', () => {
    const path = join(folder, 'run.abc');
    writeDrill(path, asked({}), heading, false);
    expect(readFileSync(path, 'utf8')).toContain('w: T K T K');
    writeFileSync(path, 'mine');
    expect(() => writeDrill(path, asked({}), heading, false)).toThrow(
      /run\.abc is already there; --force replaces it\./,
    );
    expect(readFileSync(path, 'utf8')).toBe('mine');
    writeDrill(path, asked({}), heading, true);
    expect(readFileSync(path, 'utf8')).toContain('X:1');
  });

  it('says what is wrong with its name', () => {
    expect(() => writeDrill(join(folder, 'run.pdf'), asked({}), heading, false)).toThrow(
      /must end in \.musicxml or \.abc/,
    );
    expect(() => writeDrill(join(folder, 'no', 'run.abc'), asked({}), heading, false)).toThrow(/cannot be written: /);
  });
});
