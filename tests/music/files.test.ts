import { soundedNotes } from '../../src/music/tongue/model-notes.ts';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { afterAll, describe, expect, it } from 'vitest';
import { abc } from '../../src/music/page/abc.ts';
import { ARTICULATIONS, readArticulation } from '../../src/music/tongue/articulation.ts';
import { type Drill, drillOf } from '../../src/music/tongue/drill.ts';
import { engraved } from '../../src/music/page/engraving.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { ALL_MAJOR, ALL_MINOR } from '../../src/music/pitch/keys.ts';
import { type Meter, COMMON_TIME } from '../../src/music/time/meter.ts';
import { musicXml } from '../../src/music/page/musicxml.ts';
import { midiOf } from '../../src/music/pitch/note-names.ts';
import { QUARTER, type Ratio, add, format, ratio, toNumber } from '../../src/music/time/ratio.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { itWith } from '../programs.ts';

const folder = mkdtempSync(join(tmpdir(), 'standside-files-'));
afterAll(() => rmSync(folder, { recursive: true }));

interface Asked {
  readonly pattern: string;
  readonly notes?: number;
  readonly key?: string;
  readonly scale?: string;
  readonly way?: string;
  readonly meter?: Meter;
  readonly beat?: Ratio;
  readonly instrument?: string;
}

function drill({
  pattern,
  notes = 4,
  key = 'C',
  scale = 'major',
  way = 'single',
  meter = COMMON_TIME,
  beat = QUARTER,
  instrument = 'cornet',
}: Asked): Drill {
  const passage = writeOut({
    pattern,
    scale,
    key,
    meter,
    beat,
    notesPerBeat: notes,
    instrument: instrumentNamed(instrument)!,
  });
  const articulation = readArticulation(way);
  if (!isPassage(passage) || typeof articulation === 'string') throw new Error('cannot be written');
  return drillOf(passage, articulation);
}

const HEADING = { title: 'Run & <turn>\n%x', subtitle: 'as "asked"', bpm: 72 };
const SEVEN = { meter: { count: 7, unit: 8, groups: [2, 2, 3] }, beat: ratio(1, 8), notes: 1 };
const SIX = { meter: { count: 6, unit: 8, groups: [3, 3] }, beat: ratio(3, 8) };
const DRILLS: Readonly<Record<string, Drill>> = {
  five: drill({ pattern: '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1', key: 'F#', way: 'double' }),
  mixed: drill({
    pattern: '1:1/8 2 3 1:1/8 2 3 r 1 2 3 1:1/8. 2 | 3:1/4~ 3 4 5 6 7:1/4 8 1:1/8 2 | r | 1:5/8 2:3/8',
    key: 'Eb minor',
    scale: 'melodic minor',
    way: 'slurred',
  }),
  triplets: drill({ pattern: '1 2 3 2 3 4 3 4 5 4 3 2 | 1', notes: 3, way: 'triple' }),
  seven: drill({ pattern: '1 3 5 3 1 3 5 | 4 6 8 6 4 6 8 | 1', key: 'D', way: 'slur 2 tongue 2', ...SEVEN }),
  chromatic: drill({
    pattern: '1..12 | 13..2 | 1',
    notes: 3,
    key: 'Ab',
    scale: 'chromatic',
    way: 'triple TKT KTK',
    instrument: 'eb-bass',
  }),
  bass: drill({ pattern: '1 2 3 #4 5 b7 8 r | 1', notes: 2, key: 'Bb', instrument: 'trombone' }),
  fives: drill({ pattern: '(1..5)x4 | :1/16t5 1..5 r:3/4', notes: 5, key: 'G', way: 'double' }),
  dotted: drill({ pattern: '(1 2)x8 | 1', key: 'Bb', way: 'double long-short' }),
  six: drill({ pattern: '(1 2)x6 | 1:1/4 2:1/8 3:3/8', key: 'E', way: 'double', notes: 6, ...SIX }),
};

function saved(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** What an attack sounds like: MIDI number and start in quarters, ties made one. */
const attacks = (one: Drill): readonly string[] =>
  soundedNotes(one).map((note) => `${note.midi}@${(4 * toNumber(note.at)).toFixed(3)}`);

const shown = (key: string, pattern: string) =>
  engraved(drill({ pattern, key, notes: 2 })).map((note) => note.accidental);

describe('engraving', () => {
  it('uses only note values that exist, fills every bar and completes every tuplet', () => {
    for (const [name, one] of Object.entries(DRILLS)) {
      const notes = engraved(one);
      const bars = new Map<number, Ratio>();
      for (const note of notes) bars.set(note.bar, add(bars.get(note.bar) ?? ratio(0), note.length));
      for (const length of bars.values())
        expect(format(length), name).toBe(format(ratio(one.meter.count, one.meter.unit)));
      expect(notes.filter((note) => note.tupletStart).length, name).toBe(
        notes.filter((note) => note.tupletStop).length,
      );
      expect(notes.filter((note) => note.slurStart).length, name).toBe(notes.filter((note) => note.slurStop).length);
    }
  });

  it('shows an accidental once in a bar, and never where the signature says it', () => {
    expect(shown('G', '1..8')).toEqual(Array.from({ length: 8 }, () => false));
    expect(shown('C', '#4 #4 4 4 #4 5 6 b7 | #4 r:7/8')).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      false,
      true,
      true,
      false,
    ]);
    expect(shown('C', '1:3/4 #1:1/4~ | #1:1/4~ #1:1/4 #1:1/4 1:1/4')).toEqual([false, true, false, false, true, true]);
  });
});

const xpath = (name: string, path: string): string =>
  execFileSync('xmllint', ['--nonet', '--xpath', path, saved(`${name}-x.musicxml`, musicXml(DRILLS[name]!, HEADING))], {
    encoding: 'utf8',
  }).trim();

// libxml2's xmllint is the independent reader.
const withXmllint = itWith('xmllint');

describe('MusicXML', () => {
  withXmllint('is well-formed for every drill', () => {
    for (const [name, one] of Object.entries(DRILLS)) {
      const run = spawnSync('xmllint', ['--noout', '--nonet', saved(`${name}.musicxml`, musicXml(one, HEADING))], {
        encoding: 'utf8',
      });
      expect(run.stderr, name).toBe('');
      expect(run.status, name).toBe(0);
    }
  });

  withXmllint('says the key, the transposition, the meter and the syllables', () => {
    expect(xpath('five', 'string(//key/fifths)')).toBe('6');
    expect(xpath('five', 'concat(//transpose/diatonic, " ", //transpose/chromatic)')).toBe('-1 -2');
    // Orchestration handbook: E-flat bass in treble clef sounds 21 semitones lower, an octave and a major sixth.
    expect(
      xpath('chromatic', 'concat(//transpose/diatonic, " ", //transpose/chromatic, " ", //transpose/octave-change)'),
    ).toBe('-5 -9 -1');
    expect(xpath('bass', 'concat(//clef/sign, count(//transpose))')).toBe('F0');
    expect(xpath('seven', 'concat(//time/beats, "/", //time/beat-type)')).toBe('2+2+3/8');
    expect(xpath('mixed', 'concat(//key/fifths, " ", //key/mode)')).toBe('-6 minor');
    expect(
      xpath(
        'triplets',
        'concat(count(//lyric), " ", //lyric[1]/text, " ", count(//time-modification[actual-notes=3 and ' +
          'normal-notes=2]))',
      ),
    ).toContain('13 T');
    expect(xpath('six', 'concat(//beat-unit, count(//beat-unit-dot), " ", //sound/@tempo)')).toBe('quarter1 108');
    expect(xpath('five', 'string(//movement-title)')).toBe('Run & <turn> %x: as "asked"');
  });

  withXmllint('fills every measure: durations add up', () => {
    for (const name of Object.keys(DRILLS)) {
      const one = DRILLS[name]!;
      // One call for all measures: starting a program is what takes the time.
      const sums = Array.from({ length: one.bars }, (_, bar) => `sum(//measure[@number=${bar + 1}]/note/duration)`);
      const [divisions = 0, ...measures] = xpath(name, `concat(//divisions, " ", ${sums.join(', " ", ')}, "")`)
        .split(' ')
        .map(Number);
      const whole = (divisions * 4 * one.meter.count) / one.meter.unit;
      expect(measures, name).toEqual(sums.map(() => whole));
    }
  });
});

// abc2midi reads the tune and plays it; midi-file reads what it wrote. Both independent of us.
function played(
  one: Drill,
  name: string,
): { readonly attacks: readonly string[]; readonly complaints: string; readonly words: readonly string[] } {
  const midi = join(folder, `${name}.mid`);
  const out = spawnSync('abc2midi', [saved(`${name}.abc`, abc(one, HEADING)), '-o', midi, '-NGUI'], {
    encoding: 'utf8',
  });
  const parsed = parseMidi(readFileSync(midi));
  const ticks = parsed.header.ticksPerBeat ?? 480;
  const found: string[] = [];
  const words: string[] = [];
  for (const track of parsed.tracks) {
    let at = 0;
    for (const event of track) {
      at += event.deltaTime;
      if (event.type === 'noteOn' && event.velocity > 0) found.push(`${event.noteNumber}@${(at / ticks).toFixed(3)}`);
      // Karaoke texts: a stroke before the first of a line, a blank before the others.
      if (event.type === 'text') words.push(event.text.replace(/^[ /\\]+/u, ''));
    }
  }
  return {
    attacks: found,
    complaints: `${out.stdout}${out.stderr}`
      .split('\n')
      .filter((line) => /error|warning/iu.test(line))
      .join('\n'),
    words,
  };
}

/** abc2midi starts a tick late; hundredths of a quarter are enough. */
const rounded = (list: readonly string[]): readonly string[] => list.map((one) => one.replace(/\d$/u, ''));

const withAbc2midi = itWith('abc2midi');

describe('ABC', () => {
  withAbc2midi('is played by an independent program as it was meant, at concert pitch', () => {
    for (const [name, one] of Object.entries(DRILLS)) {
      const heard = played(one, name);
      expect(heard.complaints, name).toBe('');
      expect(rounded(heard.attacks), name).toEqual(rounded(attacks(one)));
    }
  });

  withAbc2midi(
    'is played in every key and tonguing with the pitches of the drill, and the syllables arrive as lyrics',
    () => {
      for (const [i, key] of [...ALL_MAJOR, ...ALL_MINOR].entries()) {
        const way = ARTICULATIONS[i % ARTICULATIONS.length] ?? 'single';
        const one = drill({ pattern: '1..8 8..1 | 1', key, way });
        const heard = played(one, `key-${i}`);
        expect(rounded(heard.attacks), key).toEqual(rounded(attacks(one)));
        expect(
          heard.words.filter((word) => word === 'T' || word === 'K'),
          key,
        ).toEqual(one.notes.map((note) => note.syllable).filter((word) => word !== ''));
      }
    },
  );

  // abcm2ps engraves: it complains of bars that do not fill their meter.
  itWith('abcm2ps')('is engraved by another independent program without a complaint', () => {
    for (const [name, one] of Object.entries(DRILLS)) {
      const run = spawnSync(
        'abcm2ps',
        ['-q', '-O', join(folder, `${name}.ps`), saved(`${name}.abc`, abc(one, HEADING))],
        { encoding: 'utf8' },
      );
      expect(
        `${run.stdout}${run.stderr}`.split('\n').filter((line) => /error|warning/iu.test(line)),
        name,
      ).toEqual([]);
      expect(run.status, name).toBe(0);
    }
  });

  it('keeps text in its own line', () => {
    const lines = abc(DRILLS.five!, HEADING).split('\n');
    expect(lines.slice(1, 8)).toEqual([
      'X:1',
      'T:Run & <turn> x',
      'T:as "asked"',
      'M:4/4',
      'L:1/8',
      'Q:1/4=72',
      'K:F# clef=treble transpose=-2',
    ]);
  });
});

describe('the model', () => {
  it('sounds what the page transposes to', () => {
    const one = DRILLS.chromatic!;
    expect(soundedNotes(one)[0]?.midi).toBe(midiOf(one.notes[0]!.pitch!.name) - 21);
  });
});
