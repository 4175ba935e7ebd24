/** Passages: where they are put, what is offered where they do not fit, and what is known of each of their notes. */
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { droneTonicOf } from '../../src/music/pattern/passage.ts';
import {
  type Passage,
  type Refusal,
  type WriteRequest,
  isPassage,
  writeOut,
} from '../../src/music/pattern/written-in-key.ts';
import { COMMON_TIME, type Meter } from '../../src/music/time/meter.ts';
import { QUARTER, format, ratio } from '../../src/music/time/ratio.ts';

/** Quarters in C for a trumpet in C, which sounds what is written. */
const asked = (wish: Partial<WriteRequest>): WriteRequest => ({
  pattern: '1 2 3 4',
  scale: 'major',
  key: 'C',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 1,
  instrument: instrumentNamed('c-trumpet')!,
  ...wish,
});

const write = (wish: Partial<WriteRequest>): Passage => {
  const result = writeOut(asked(wish));
  if (!isPassage(result)) throw new Error(result.troubles[0]?.sentence);
  return result;
};

const refused = (wish: Partial<WriteRequest>): Refusal => {
  const result = writeOut(asked(wish));
  if (isPassage(result)) throw new Error('it can be written');
  return result;
};

const names = (passage: Passage | undefined): string =>
  passage?.notes.map(({ pitch }) => pitch?.name ?? 'r').join(' ') ?? 'none';

const OCTAVE = { low: 60, high: 72 };

describe('a passage that does not fit', () => {
  it('above: says which note, and offers it an octave lower, or without its bar', () => {
    const { troubles, offers } = refused({ pattern: '1 3 5 8 | 1 5 8 10 | 1', range: OCTAVE });
    expect(troubles).toEqual([
      {
        at: 1,
        sentence:
          'C major does not fit the range that was asked for: E5 in bar 2 lies above it. It can be played in the ' +
          'nearest octave, bar by bar, or as the abbreviated form of 2 bars.',
      },
    ]);
    const [near, short] = offers;
    expect(offers).toHaveLength(2);
    expect(names(near)).toBe('C4 E4 G4 C5 C4 G4 C5 E4 C4');
    expect(near?.placed).toBe('nearest octave');
    expect(near?.remarks).toEqual([
      'C major does not fit the range that was asked for, so some notes stand an octave lower.',
    ]);
    expect(names(short)).toBe('C4 E4 G4 C5 C4');
    expect(short?.notes.map(({ bar, at }) => `${bar}:${format(at)}`)).toEqual([
      '0:0',
      '0:1/4',
      '0:1/2',
      '0:3/4',
      '1:1',
    ]);
    expect([short?.placed, short?.bars]).toEqual(['abbreviated', 2]);
    expect(short?.remarks).toEqual([
      'C major does not fit the range that was asked for, so only the bars that do are here.',
    ]);
  });

  it('below: an octave higher, and the bars that are left by their number', () => {
    const { troubles, offers } = refused({ pattern: '5, 1 3 5 | 1', range: OCTAVE });
    expect(troubles[0]?.sentence).toBe(
      'C major does not fit the range that was asked for: G3 in bar 1 lies below it. It can be played in the nearest ' +
        'octave, bar by bar, or as the abbreviated form of 1 bar.',
    );
    expect(offers.map(names)).toEqual(['G4 C4 E4 G4 C4', 'C4']);
    expect(offers[0]?.remarks[0]).toMatch(/stand an octave higher\.$/u);
  });

  it('moves a bar as a whole where that is enough, and closes up what is left out in the middle', () => {
    const { offers } = refused({ pattern: "1 2 3 4 | 1' 2' 3' 4' | 5 4 3 2", range: { low: 60, high: 70 } });
    expect(offers.map(names)).toEqual(['C4 D4 E4 F4 C4 D4 E4 F4 G4 F4 E4 D4', 'C4 D4 E4 F4 G4 F4 E4 D4']);
    expect(offers[1]?.notes.slice(4).map(({ bar, at, beat }) => `${bar}:${format(at)}:${beat}`)).toEqual([
      '1:1:0',
      '1:5/4:1',
      '1:3/2:2',
      '1:7/4:3',
    ]);
  });

  it('ends a tie where what it leads to was moved or left out', () => {
    const { offers } = refused({ pattern: "1 2 3 1'~ | 1' 5' 5' 5'", range: OCTAVE });
    expect(offers.map(names)).toEqual(['C4 D4 E4 C5 C4 G4 G4 G4', 'C4 D4 E4 C5']);
    expect(offers.flatMap(({ notes }) => notes).some(({ tiedFrom, tiedTo }) => tiedFrom || tiedTo)).toBe(false);
  });

  it('keeps rests where they are', () => {
    const { offers } = refused({ pattern: "r 1 r 1'' | r | 1 r r r", range: OCTAVE });
    expect(offers.map(names)).toEqual(['r C4 r C5 r C4 r r r', 'r C4 r r r']);
    const { offers: alone } = refused({ pattern: "1 r 1' r | 1", range: { low: 60, high: 66 } });
    expect(alone.map(names)).toEqual(['C4 r C4 r C4', 'C4']);
  });

  it('is offered only in ways that leave something to play', () => {
    const folded = refused({ pattern: '1 8 1 8', range: { low: 60, high: 66 } });
    expect(folded.offers.map(names)).toEqual(['C4 C4 C4 C4']);
    expect(folded.troubles[0]?.sentence).toMatch(
      /lies above it\. It can be played in the nearest octave, bar by bar\.$/u,
    );
    const short = refused({ pattern: '1 2 3 4 | 7 7 7 7 | 1', range: { low: 60, high: 65 } });
    expect(short.offers.map(names)).toEqual(['C4 D4 E4 F4 C4']);
    expect(short.troubles[0]?.sentence).toMatch(/It can be played in the abbreviated form of 2 bars\.$/u);
    const nothing = refused({ pattern: '7 7 7 7', range: { low: 60, high: 65 } });
    expect(nothing.offers).toEqual([]);
    expect(nothing.troubles[0]?.sentence).toMatch(/Choose another key or widen the range\.$/u);
    const rests = refused({ pattern: '7 7 7 7 | r', range: { low: 60, high: 65 } });
    expect(rests.offers).toEqual([]);
  });

  it('names flats and sharps with their signs, and the instrument whose range it is', () => {
    const { troubles } = refused({ pattern: "b7 b7' b7'' b7'''", instrument: instrumentNamed('tuba')! });
    expect(troubles[0]?.sentence).toMatch(
      /^C major does not fit the range of the tuba: B♭\d in bar 1 lies (above|below) it\./u,
    );
  });

  it('says what the key is called where it had to be respelled', () => {
    const { offers } = refused({
      pattern: '1 8 1 8',
      key: 'Db',
      scale: 'harmonic minor',
      range: { low: 60, high: 66 },
    });
    expect(offers[0]?.remarks).toEqual([
      'Db harmonic minor would have 8 flats, so it is written as C# harmonic minor.',
      'C# harmonic minor does not fit the range that was asked for, so some notes stand an octave lower.',
    ]);
  });
});

const places = (wish: Partial<WriteRequest>) =>
  write(wish)
    .notes.map(({ bar, beat, inBeat }) => `${bar}.${beat}+${format(inBeat)}`)
    .join(' ');

const placed = (wish: Partial<WriteRequest>) => {
  const passage = write(wish);
  return `${passage.placed} ${passage.notes[0]?.pitch?.name}`;
};

describe('a passage that fits', () => {
  it('stands in the easy range, or in the full one, or in those that were asked for', () => {
    expect(placed({})).toBe('easy C4');
    expect(placed({ range: { low: 72, high: 84 } })).toBe('easy C5');
    expect(placed({ easy: { low: 72, high: 84 } })).toBe('easy C5');
    expect(placed({ range: { low: 48, high: 84 }, easy: { low: 60, high: 64 } })).toBe('full C4');
    expect(placed({ range: { low: 48, high: 84 }, easy: { low: 72, high: 78 } })).toBe('easy C5');
  });

  it('has no remark, unless it is written under another name', () => {
    expect(write({}).remarks).toEqual([]);
    expect(write({ range: { low: 48, high: 84 }, easy: { low: 60, high: 64 } }).remarks).toEqual([]);
    expect(write({ pattern: '1', range: { low: 60, high: 60 } }).remarks).toEqual([]);
    expect(write({ key: 'Db', scale: 'harmonic minor' }).remarks).toEqual([
      'Db harmonic minor would have 8 flats, so it is written as C# harmonic minor.',
    ]);
  });

  it('has no tie where none is written, were it the same note', () => {
    expect(write({ pattern: '1 1 2 2' }).notes.some(({ tiedFrom, tiedTo }) => tiedFrom || tiedTo)).toBe(false);
  });

  it('knows its ties on both sides', () => {
    const { notes, bars } = write({ pattern: '1:1/2~ 1:1/4 2~ | 2 r 3~ 3' });
    expect(bars).toBe(2);
    expect(notes.map(({ tiedFrom, tiedTo }) => `${tiedFrom ? ')' : ''}${tiedTo ? '(' : ''}`)).toEqual([
      '(',
      ')',
      '(',
      ')',
      '',
      '(',
      ')',
    ]);
  });

  it('knows bar, beat and how far into the beat each note begins', () => {
    expect(places({ pattern: '1:1/8 2:1/8 3:1/4. 4:1/8 5:1/4 | 1:1/16 2:3/16 3:3/4' })).toBe(
      '0.0+0 0.0+1/2 0.1+0 0.2+1/2 0.3+0 1.0+0 1.0+1/4 1.1+0',
    );
    const six: Meter = { count: 6, unit: 8, groups: [3, 3] };
    expect(places({ pattern: '1 2 3 4 5 4', meter: six, beat: ratio(3, 8), notesPerBeat: 3 })).toBe(
      '0.0+0 0.0+1/3 0.0+2/3 0.1+0 0.1+1/3 0.1+2/3',
    );
  });

  it('sounds at concert pitch', () => {
    for (const instrument of INSTRUMENTS)
      for (const { pitch } of write({ instrument, pattern: '1' }).notes)
        expect((pitch?.concert ?? 0) - (pitch?.written ?? 0), instrument.id).toBe(instrument.transposition);
  });
});

describe('the drone of a passage', () => {
  it('is the tonic at or below its lowest note, as it sounds', () => {
    expect(droneTonicOf(write({ pattern: '1 2 3 4' }))).toBe(60);
    expect(droneTonicOf(write({ pattern: '5, 1 5 r' }))).toBe(48);
    expect(droneTonicOf(write({ pattern: '7 6 5 4', range: { low: 62, high: 72 } }))).toBe(60);
    // A written C on the B-flat cornet sounds B-flat: 58 (handbooks of orchestration, from memory).
    expect(droneTonicOf(write({ instrument: instrumentNamed('cornet')! }))).toBe(58);
    expect(droneTonicOf(write({ instrument: instrumentNamed('eb-bass')!, key: 'G' })) % 12).toBe(10);
  });
});

const line = (pattern: string): string => names(write({ scale: 'melodic minor', key: 'A', pattern, notesPerBeat: 2 }));

describe('a scale that differs going down', () => {
  it.each([
    ['5 6 7 8 8 7 6 5', 'E4 F#4 G#4 A4 A4 G4 F4 E4'],
    ['6 7 8:1/4 7 6 5:1/4', 'F#4 G#4 A4 G4 F4 E4'],
    // Held and repeated notes, and notes before a rest, go with what follows.
    ['7 7 7 6 5:1/2', 'G4 G4 G4 F4 E4'],
    ['7 7 7 8 8:1/2', 'G#4 G#4 G#4 A4 A4'],
    ['7 r 6 r 6 r 7:1/4', 'G4 r F#4 r F#4 r G#4'],
    ['r 7 r 8 r:1/2', 'r G#4 r A4 r'],
    // The last note keeps the way by which it was reached; with none, it goes up.
    ['5 6 5 6:5/8', 'E4 F4 E4 F#4'],
    ['8 7:7/8', 'A4 G4'],
    ['8 7 7 r r:1/2', 'A4 G4 G4 r r'],
    ['8 7 r 7 r:1/2', 'A4 G4 r G4 r'],
    ['7 7 r r:5/8', 'G#4 G#4 r r'],
    ['(7:1/32)x12 6:5/8', `${'G4 '.repeat(12)}F4`],
  ])('%s is %s', (pattern, expected) => {
    expect(line(pattern).replaceAll(/\d/gu, '')).toBe(expected.replaceAll(/\d/gu, ''));
  });
});
