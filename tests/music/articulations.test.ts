/** The names of ways of tonguing and of syllables: what is read, and what is not. */
import { describe, expect, it } from 'vitest';
import {
  ARTICULATIONS,
  type Articulation,
  PULSES,
  cycleLength,
  readArticulation,
} from '../../src/music/tongue/articulation.ts';
import { HARD, SOFT, readSyllables } from '../../src/music/tongue/syllables.ts';
import { countedOnBeat, pulsesIn } from '../../src/music/tongue/vibrato.ts';

const read = (text: string): Articulation => {
  const found = readArticulation(text);
  if (typeof found === 'string') throw new Error(found);
  return found;
};

describe('a way of tonguing', () => {
  // Syllables: double T K; triple T T K or T K T (contemporary-techniques page for the tuba, read).
  it.each([
    ['slurred', ['slur', 'Legato'], { kind: 'slurred' }],
    ['single', ['single tongue', 'tongued'], { kind: 'single' }],
    ['double', ['Double Tongue', 'TK'], { kind: 'double' }],
    ['triple', ['triple tongue', 'ttk', 'triple TTK'], { kind: 'triple', order: 'TTK' }],
    ['triple TKT', ['tkt', 'TRIPLE tkt'], { kind: 'triple', order: 'TKT' }],
    ['triple TKT KTK', ['tkt ktk', 'triple alternating'], { kind: 'running', anew: true }],
    ['double over triplets', ['tktktk'], { kind: 'running', anew: false }],
    ['back syllable', ['back', 'back syllable alone'], { kind: 'back' }],
  ])('%s is also called %j', (name, aliases, tonguing) => {
    for (const alias of [name, ...aliases]) {
      expect(read(alias)).toEqual({ name, tonguing, rhythm: 'written' });
      expect(read(`${alias}  LONG-SHORT `)).toEqual({ name: `${name} long-short`, tonguing, rhythm: 'long-short' });
      expect(read(`${alias} even`)).toEqual({ name: `${name} even`, tonguing, rhythm: 'written' });
    }
  });

  it('has eight plain names', () => {
    expect(ARTICULATIONS).toHaveLength(8);
    for (const name of ARTICULATIONS) expect(read(name).name).toBe(name);
  });

  it('may be slurs and tongued notes in turn', () => {
    expect(read('Slur 2  tongue 2')).toEqual({
      name: 'slur 2 tongue 2',
      tonguing: {
        kind: 'mixed',
        segments: [
          { how: 'slur', notes: 2 },
          { how: 'single', notes: 2 },
        ],
      },
      rhythm: 'written',
    });
    const hows = (text: string) => {
      const { tonguing } = read(text);
      return tonguing.kind === 'mixed' ? tonguing.segments.map(({ how, notes }) => `${how}${notes}`).join(' ') : '';
    };
    expect(hows('single 1 double 4 back 3 slur 16')).toBe('single1 double4 back3 slur16');
    expect(hows('slur 1 slur 1 slur 1 slur 1 slur 1 slur 1 slur 1 slur 1')).toBe(
      'slur1 slur1 slur1 slur1 slur1 slur1 slur1 slur1',
    );
    expect(read('slur 3 tongue 1 long-short').name).toBe('slur 3 tongue 1 long-short');
    expect(
      cycleLength([
        { how: 'slur', notes: 3 },
        { how: 'single', notes: 1 },
      ]),
    ).toBe(4);
  });

  it('may be pulses of vibrato, two to twelve on a beat', () => {
    expect(PULSES).toEqual(['pulses 3', 'pulses 4', 'pulses 5', 'pulses 6']);
    expect(read('PULSES  4')).toEqual({
      name: 'pulses 4',
      tonguing: { kind: 'slurred' },
      rhythm: 'written',
      pulses: 4,
    });
    expect([read('pulses 2').pulses, read('pulses 12').pulses, read('pulses 02').name]).toEqual([2, 12, 'pulses 2']);
    expect([pulsesIn('pulses 6'), pulsesIn('slurred'), pulsesIn('nothing')]).toEqual([6, null, null]);
    expect([countedOnBeat('pulses 6', 4), countedOnBeat('nothing', 4)]).toEqual([6, 4]);
  });

  it.each([
    '',
    'long-short',
    'quadruple',
    'doubleeven',
    'double-even',
    'double long-short even more',
    'slur 0',
    'slur 17',
    'slur 2 tongue',
    'slur 2 tongue 2x',
    'slur x2 tongue 2',
    'slur two tongue 2',
    'slur 2 tongue 123',
    'jump 2',
    'slur 1 slur 1 slur 1 slur 1 slur 1 slur 1 slur 1 slur 1 slur 1',
    'pulses 1',
    'pulses 13',
    'pulses 4 even',
    'my pulses 4',
    'pulses 123',
  ])('%j is none, and all that are one are named', (text) => {
    expect(readArticulation(text)).toBe(
      `'${text}' is no way of tonguing: write slurred, single, double, triple, triple TKT, triple TKT KTK, ` +
        'double over triplets, back syllable, or slurs and tongued notes in turn, ' +
        'like slur 2 tongue 2; or pulses 4 for vibrato.',
    );
  });
});

describe('syllables', () => {
  it("are the hard pair, the soft one or one of the player's own", () => {
    expect(HARD).toEqual({ name: 't-k', front: 'T', back: 'K' });
    expect(SOFT).toEqual({ name: 'd-g', front: 'D', back: 'G' });
    expect(readSyllables(' T-K ')).toBe(HARD);
    expect(readSyllables('D-g')).toBe(SOFT);
    expect(readSyllables('ta-ka')).toEqual({ name: 'ta-ka', front: 'ta', back: 'ka' });
    expect(readSyllables('dööö-gäää')).toEqual({ name: 'dööö-gäää', front: 'dööö', back: 'gäää' });
  });

  it.each(['', 't', 't-', '-k', 'tk', 't-k-t', 'tttta-k', 't-kkkka', 't1-k', 't k', 't--k'])('%j are none', (text) => {
    expect(readSyllables(text)).toBe(
      `'${text}' is no pair of syllables: write t-k, d-g, or two of your own of at most four letters, like ta-ka.`,
    );
  });
});
