/** The ABC tune sign by sign. What the signs mean: the ABC music standard 2.1, from memory. */
import { describe, expect, it } from 'vitest';
import { abc } from '../../src/music/page/abc.ts';
import { ratio } from '../../src/music/time/ratio.ts';
import { type Asked, drillIn } from './drills.ts';

const lines = (asked: Asked, bpm: number | null = null): readonly string[] =>
  abc(drillIn(asked), { title: 'Title', subtitle: 'Below', bpm }).split('\n');

/** A field's value: 'K' is the key. */
const field = (sign: string, asked: Asked, bpm?: number): readonly string[] =>
  lines(asked, bpm).flatMap((line) => (line.startsWith(`${sign}:`) ? [line.slice(2)] : []));

/** Lines of music only. */
const music = (asked: Asked): readonly string[] =>
  lines(asked).filter((line) => line.endsWith('|') || line.endsWith('|]'));

describe('an ABC tune', () => {
  it('has its fields in the order of the standard: X first, T after it, K last', () => {
    expect(lines({ pattern: '1', instrument: 'cornet', key: 'Bb' }, 72)).toEqual([
      '%abc-2.1',
      'X:1',
      'T:Title',
      'T:Below',
      'M:4/4',
      'L:1/8',
      'Q:1/4=72',
      'K:Bb clef=treble transpose=-2',
      'B8 |]',
      'w: T',
      '',
    ]);
    expect(field('Q', { pattern: '1' })).toEqual([]);
    expect(field('Q', { pattern: '1', meter: '6/8', beat: ratio(3, 8) }, 62.5)).toEqual(['3/8=62.5']);
  });

  it.each([
    ['4/4', '4/4'],
    ['6/8', '6/8'],
    ['7/8', '(2+2+3)/8'],
    ['5/4', '(2+3)/4'],
    ['3+2+2/8', '(3+2+2)/8'],
  ])('has the meter %s as %s', (meter, written) => {
    expect(field('M', { pattern: '1', meter, beat: ratio(1, 8), notes: 1 })).toEqual([written]);
  });

  it.each([
    ['Bb', 'major', 'Bb'],
    ['A minor', 'major', 'Am'],
    ['C', 'harmonic minor', 'Cm'],
    ['D', 'dorian', 'Ddor'],
    ['E', 'phrygian', 'Ephr'],
    ['F', 'lydian', 'Flyd'],
    ['G', 'mixolydian', 'Gmix'],
    ['B', 'locrian', 'Bloc'],
    // No mode of its own: the major key of the signature, by sharps and by flats.
    ['Eb', 'chromatic', 'Eb'],
    ['D minor', 'chromatic', 'Dm'],
    ['G', 'dominant seventh', 'C'],
    ['F#', 'whole-tone', 'F#'],
    ['C', 'dominant seventh', 'F'],
    ['Db', 'dominant seventh', 'Gb'],
  ])('is in %s %s as %s', (key, scale, written) => {
    expect(field('K', { pattern: '1', key, scale })).toEqual([`${written} clef=treble`]);
  });

  it('names clef and transposition', () => {
    expect(field('K', { pattern: '1', instrument: 'trombone' })).toEqual(['C clef=bass']);
    expect(field('K', { pattern: '1', instrument: 'piccolo' })).toEqual(['C clef=treble transpose=12']);
  });

  it('writes octaves by capitals, commas, small letters and strokes', () => {
    expect(music({ pattern: "1 1' r r r:1/2", instrument: 'flute' })[0]).toBe("cc' zz z4 |]");
    expect(music({ pattern: '1 1, r r r:1/2', instrument: 'tuba' })[0]).toBe('C,C,, zz z4 |]');
    expect(music({ pattern: '1 8 r r r:1/2' })[0]).toBe('Cc zz z4 |]');
  });

  it('writes lengths as so many eighths', () => {
    expect(music({ pattern: '1:1/8 1:1/16 1:1/16 1:1/4 1:1/4. 1:1/8', key: 'D' })[0]).toBe('DD/2D/2 D2 D3 D |]');
    expect(music({ pattern: '1:1/8. 1:1/16 1:1/32 1:1/32 1:1/16 1:1/8 1:1/2', key: 'D' })[0]).toBe(
      'D3/2D/2 D/4D/4D/2D D4 |]',
    );
  });

  it('writes accidentals only where they are needed', () => {
    expect(music({ pattern: '#1 1 b2 2 r:1/2' })[0]).toBe('^C=C _D=D z4 |]');
    expect(music({ pattern: '6 7 8 r r:1/2', key: 'G#', scale: 'harmonic minor' })[0]).toBe('E^^F Gz z4 |]');
    expect(music({ pattern: '4 #4 4 r r:1/2', key: 'F' })[0]).toBe('B=B _Bz z4 |]');
  });

  it('slurs, ties and tuplets', () => {
    expect(music({ pattern: '1 2 3 4 5 4 3 2', way: 'slur 2 tongue 2' })[0]).toBe('(CD) EF (GF) ED |]');
    expect(music({ pattern: '1:1/2~ 1:1/4 2:1/4 | 2:5/8~ 2:3/8' })[0]).toBe('C4- C2 D2 | D4- D-D3 |]');
    expect(music({ pattern: '1:1/8t 2:1/8t 3:1/8t 1:1/4t 2:1/8t r:1/2' })[0]).toBe('(3:2:3CDE (3:2:2C2D z4 |]');
    expect(music({ pattern: ':1/16t5 1 2 3 4 5 : r:3/4' })[0]).toBe('(5:4:5C/2D/2E/2F/2G/2 z6 |]');
  });

  it('keeps beamed notes together and sets beats apart', () => {
    expect(music({ pattern: '1 2 3 4 5 4 3 2' })[0]).toBe('CD EF GF ED |]');
    expect(music({ pattern: '1 2 3 4 5 4 3', meter: '7/8', beat: ratio(1, 8), notes: 1 })[0]).toBe('CD EF GFE |]');
  });

  it('sets two bars in a line, each line with its syllables, and ends with a double bar', () => {
    expect(lines({ pattern: '1 | 2 | 3 | 4 | 5' }).slice(7)).toEqual([
      'C8 | D8 |',
      'w: T T',
      'E8 | F8 |',
      'w: T T',
      'G8 |]',
      'w: T',
      '',
    ]);
    expect(lines({ pattern: '1 | 2 | 3 | 4' }).filter((line) => line.startsWith('w:'))).toHaveLength(2);
  });

  it('passes over slurred and tied notes with a star, and over rests with nothing', () => {
    expect(lines({ pattern: '1 2 r 3~ 3 4 r r', way: 'slur 2 tongue 1' }).at(-2)).toBe('w: T * T * *');
    expect(lines({ pattern: '1 2 3 4', notes: 1, way: 'double' }).at(-2)).toBe('w: T K T K');
  });

  it('leaves out what would begin a comment or a new line', () => {
    const tune = abc(drillIn({ pattern: '1' }), { title: 'a%b\\c\nd', subtitle: '\u0007e\u2029f  g', bpm: null });
    expect(tune.split('\n').slice(2, 4)).toEqual(['T:abc d', 'T:e f  g']);
  });
});
