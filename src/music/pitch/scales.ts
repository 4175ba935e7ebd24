/** The scales in which degrees are counted: a table of interval names and the words a player may use for them. */
import { ownScale } from './own-scale.ts';
import type { Scale } from './scale.ts';

export type { Scale } from './scale.ts';

interface Row {
  readonly name: string;
  readonly aliases?: readonly string[];
  readonly up: string;
  readonly down?: string;
  readonly signature: number | null;
  readonly simple?: true;
  readonly minor?: string;
  readonly kind?: 'arpeggio';
}

const NATURAL = '1P 2M 3m 4P 5P 6m 7m';

const ROWS: readonly Row[] = [
  { name: 'major', aliases: ['ionian'], up: '1P 2M 3M 4P 5P 6M 7M', signature: 0, minor: 'natural minor' },
  { name: 'natural minor', aliases: ['minor', 'aeolian'], up: NATURAL, signature: -3 },
  { name: 'harmonic minor', up: '1P 2M 3m 4P 5P 6m 7M', signature: -3 },
  { name: 'melodic minor', up: '1P 2M 3m 4P 5P 6M 7M', down: NATURAL, signature: -3 },
  { name: 'ascending melodic minor', up: '1P 2M 3m 4P 5P 6M 7M', signature: -3 },
  { name: 'dorian', up: '1P 2M 3m 4P 5P 6M 7m', signature: -2 },
  { name: 'phrygian', up: '1P 2m 3m 4P 5P 6m 7m', signature: -4 },
  { name: 'lydian', up: '1P 2M 3M 4A 5P 6M 7M', signature: 1 },
  { name: 'mixolydian', up: '1P 2M 3M 4P 5P 6M 7m', signature: -1 },
  { name: 'locrian', up: '1P 2m 3m 4P 5d 6m 7m', signature: -5 },
  {
    name: 'chromatic',
    up: '1P 1A 2M 2A 3M 4P 4A 5P 5A 6M 6A 7M',
    down: '1P 2m 2M 3m 3M 4P 5d 5P 6m 6M 7m 7M',
    signature: null,
    simple: true,
    minor: 'minor chromatic',
  },
  // Every note of the natural, harmonic and melodic minor by its own name, and of the rest the lowered second, the
  // raised third and the raised fourth: the harmonic chromatic scale of theory handbooks, from memory.
  {
    name: 'minor chromatic',
    up: '1P 2m 2M 3m 3M 4P 4A 5P 6m 6M 7m 7M',
    down: '1P 2m 2M 3m 3M 4P 5d 5P 6m 6M 7m 7M',
    signature: -3,
    simple: true,
  },
  { name: 'whole-tone', aliases: ['whole tone'], up: '1P 2M 3M 4A 5A 7m', signature: null, simple: true },
  { name: 'major pentatonic', aliases: ['pentatonic'], up: '1P 2M 3M 5P 6M', signature: 0, minor: 'minor pentatonic' },
  { name: 'minor pentatonic', up: '1P 3m 4P 5P 7m', signature: -3 },
  { name: 'blues', up: '1P 3m 4P 5d 5P 7m', signature: -3, simple: true },
  {
    name: 'major arpeggio',
    aliases: ['arpeggio', 'major triad'],
    up: '1P 3M 5P',
    signature: 0,
    minor: 'minor arpeggio',
    kind: 'arpeggio',
  },
  { name: 'minor arpeggio', aliases: ['minor triad'], up: '1P 3m 5P', signature: -3, kind: 'arpeggio' },
  {
    name: 'augmented arpeggio',
    aliases: ['augmented triad'],
    up: '1P 3M 5A',
    signature: 0,
    simple: true,
    kind: 'arpeggio',
  },
  {
    name: 'major seventh',
    aliases: ['major seventh arpeggio'],
    up: '1P 3M 5P 7M',
    signature: 0,
    minor: 'minor seventh',
    kind: 'arpeggio',
  },
  { name: 'minor seventh', aliases: ['minor seventh arpeggio'], up: '1P 3m 5P 7m', signature: -3, kind: 'arpeggio' },
  {
    name: 'dominant seventh',
    aliases: ['dominant seventh arpeggio'],
    up: '1P 3M 5P 7m',
    signature: -1,
    kind: 'arpeggio',
  },
  {
    name: 'diminished seventh',
    aliases: ['diminished seventh arpeggio'],
    up: '1P 3m 5d 7d',
    signature: -3,
    simple: true,
    kind: 'arpeggio',
  },
];

const words = (text: string): readonly string[] => text.split(' ');

export const SCALES: readonly Scale[] = ROWS.map((row) => ({
  name: row.name,
  called: row.name,
  aliases: row.aliases ?? [],
  up: words(row.up),
  down: words(row.down ?? row.up),
  signature: row.signature,
  simple: row.simple ?? false,
  parallelMinor: row.minor ?? null,
  kind: row.kind ?? 'scale',
}));

/**
 * The scale of that name, or a sentence. `scaleNamed('minor')` is the natural minor, `scaleNamed('1 2 b3 5 6')` one of
 * the player's own.
 */
export function scaleNamed(name: string): Scale | string {
  const wanted = name.trim().toLowerCase().replaceAll(/\s+/gu, ' ');
  const found = SCALES.find((scale) => scale.name === wanted || scale.aliases.includes(wanted));
  if (found) return found;
  const names = SCALES.map((scale) => scale.name).join(', ');
  return ownScale(name) ?? `'${name}' is no scale: write one of ${names}, or degrees like 1 2 b3 5.`;
}

/** How many degrees lie below the octave: 7 in a major scale, 12 in the chromatic, 3 in a triad. */
export const degreesIn = (scale: Scale): number => scale.up.length;
