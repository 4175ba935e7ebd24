/**
 * Names of keys and their signatures: arithmetic on the line of fifths, cheap enough to load everywhere.
 * C is 0, each sharp one more, each flat one less.
 */
import { type Scale, scaleNamed } from './scales.ts';

const LETTERS_BY_FIFTHS = 'FCGDAEB';

/** Written majors in the usual order round the circle of fifths, from C by way of the sharps. */
export const ALL_MAJOR: readonly string[] = ['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'Db', 'Ab', 'Eb', 'Bb', 'F'];
/** Their relatives would start on A; these run the same way round. */
export const ALL_MINOR: readonly string[] = [
  'A minor',
  'E minor',
  'B minor',
  'F# minor',
  'C# minor',
  'G# minor',
  'Eb minor',
  'Bb minor',
  'F minor',
  'C minor',
  'G minor',
  'D minor',
];

export interface Key {
  /** As the program writes it: 'Bb', 'A minor'. */
  readonly name: string;
  /** 'Bb', without an octave. */
  readonly tonic: string;
  /** The scale that the key names by itself ('minor', 'harmonic minor', 'dorian'); null for a plain 'Bb'. */
  readonly scale: string | null;
}

const KEY = /^([A-Ga-g])(#|b|♯|♭| sharp| flat|-sharp|-flat)?(?: (.+))?$/u;
const SIGNS: Readonly<Record<string, string>> = { '♯': '#', '♭': 'b', sharp: '#', flat: 'b' };

/** The number of fifths from C to a tonic: `fifthsOf('Bb')` is -2. Throws RangeError for what is none. */
export function fifthsOf(tonic: string): number {
  if (!/^[A-G](#*|b*)$/u.test(tonic)) throw new RangeError(`not a tonic: ${tonic}`);
  const signs = tonic.length - 1;
  return LETTERS_BY_FIFTHS.indexOf(tonic.charAt(0)) - 1 + (tonic[1] === 'b' ? -7 : 7) * signs;
}

/** The other way: `tonicAt(-2)` is 'Bb'. */
export function tonicAt(fifths: number): string {
  const letter = LETTERS_BY_FIFTHS.at((fifths + 1) % 7) ?? '';
  const alter = Math.floor((fifths + 1) / 7);
  return letter + (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));
}

const unknownKey = (text: string): string =>
  `'${text}' is no key: write a letter from A to G, with # or b where it has one, and minor or another scale ` +
  `after it, like C, Bb, F# or A minor.`;

const withScale = (tonic: string, scale: string | null): Key => ({
  name: scale === null ? tonic : `${tonic} ${scale}`,
  tonic,
  scale,
});

/**
 * Reads 'Bb', 'B♭', 'b flat', 'A minor', 'D dorian'; a sentence where it is no key. `readKey('e flat minor')` is Eb
 * minor.
 */
export function readKey(text: string): Key | string {
  const found = KEY.exec(text.trim().replaceAll(/\s+/gu, ' '));
  if (!found) return unknownKey(text);
  const sign = (found[2] ?? '').replace(/[ -]/u, '');
  const tonic = (found[1] ?? '').toUpperCase() + (SIGNS[sign] ?? sign);
  const word = (found[3] ?? '').toLowerCase();
  if (word === '' || word === 'major') return withScale(tonic, null);
  if (word === 'minor') return withScale(tonic, word);
  const scale = scaleNamed(word);
  return typeof scale === 'string' ? unknownKey(text) : withScale(tonic, scale.name);
}

/** A key and a scale brought together: what is on the page. */
export interface Tonality {
  readonly tonic: string;
  readonly scale: Scale;
  /** Sharps of the signature, flats negative: -7 to 7. */
  readonly fifths: number;
  /** What it is called: 'Bb major', 'C# harmonic minor'. */
  readonly name: string;
  /** Set where the key is written with another name than it was asked for, e.g. C# for Db: why. */
  readonly respelled: string | null;
}

/**
 * The scale of an exercise in a key that names one of its own: the key wins where the exercise says no more than
 * 'major'.
 */
function scaleInKey(key: Key, wanted: Scale): Scale {
  if (key.scale === null) return wanted;
  const own = scaleNamed(key.scale);
  if (typeof own === 'string') return wanted;
  const minorKey = own.signature === -3;
  if (wanted.name === 'major') return own;
  return minorKey && wanted.parallelMinor !== null ? parallel(wanted.parallelMinor, wanted) : wanted;
}

function parallel(name: string, otherwise: Scale): Scale {
  const scale = scaleNamed(name);
  return typeof scale === 'string' ? otherwise : scale;
}

/** Scales without a signature of their own (chromatic, whole-tone) take the key's. */
const signatureOf = (key: Key, scale: Scale): number =>
  scale.signature ?? (key.scale !== null && key.scale.endsWith('minor') ? -3 : 0);

/**
 * The signature and spelling of a scale in a key. More than seven signs are never written; six at most where the
 * player only named a tonic and the other spelling has fewer (harmonic minor on Db is written in C sharp).
 * A sentence where the scale is unknown.
 */
export function tonalityOf(key: Key, scaleName: string): Tonality | string {
  const wanted = scaleNamed(scaleName);
  if (typeof wanted === 'string') return wanted;
  const scale = scaleInKey(key, wanted);
  const offset = signatureOf(key, scale);
  const asked = fifthsOf(key.tonic) + offset;
  const most = key.scale === null && offset !== 0 ? 6 : 7;
  const fifths = Math.abs(asked) <= most ? asked : asked > 0 ? asked - 12 : asked + 12;
  const tonic = tonicAt(fifths - offset);
  const called = `${tonic} ${scale.called}`;
  const respelled =
    tonic === key.tonic
      ? null
      : `${key.tonic} ${scale.called} would have ${signs(asked)}, so it is written as ${called}.`;
  return { tonic, scale, fifths, name: called, respelled };
}

const signs = (fifths: number): string => `${Math.abs(fifths)} ${fifths < 0 ? 'flats' : 'sharps'}`;

/** Semitones that the signature adds to a letter: `alteredBy('B', -2)` is -1. */
export function alteredBy(letter: string, fifths: number): number {
  const index = LETTERS_BY_FIFTHS.indexOf(letter);
  return Math.floor((fifths - 1 - index) / 7) + 1;
}
