/**
 * The instruments that the program knows: what they sound like against the page, and what lies in
 * their range. Transpositions: orchestration handbooks (from memory). Ranges, written: common practice,
 * no source; the player sets their own.
 */
import type { Semitones } from '../../common/units.ts';

export interface Instrument {
  /** Short name for the command line and for files. */
  readonly id: string;
  readonly name: string;
  readonly family: 'brass' | 'reed' | 'flute';
  /** From the written note to the sounding one. */
  readonly transposition: Semitones;
  readonly clef: 'treble' | 'bass';
  /** Written range, e.g. 'F#3' to 'C6'. */
  readonly low: string;
  readonly high: string;
  /** The part of it where an unhurried player is at ease. */
  readonly easyLow: string;
  readonly easyHigh: string;
  /** Where the low register ends and the high one begins, where the instrument itself says so; null for thirds. */
  readonly breaks: readonly [lowEnds: string, highBegins: string] | null;
}

type Row = readonly [
  id: string,
  name: string,
  family: Instrument['family'],
  transposition: Semitones,
  clef: Instrument['clef'],
  low: string,
  high: string,
  easyLow: string,
  easyHigh: string,
];

/** Of all clarinets: below the break, and above what the register key gives. Common practice, no source. */
const CLARINETS: readonly [string, string] = ['Bb4', 'C#6'];

const ROWS: readonly Row[] = [
  ['cornet', 'B-flat cornet', 'brass', -2, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['trumpet', 'B-flat trumpet', 'brass', -2, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['flugelhorn', 'flugelhorn', 'brass', -2, 'treble', 'F#3', 'A5', 'G3', 'F5'],
  ['c-trumpet', 'trumpet in C', 'brass', 0, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['soprano-cornet', 'E-flat soprano cornet', 'brass', 3, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['tenor-horn', 'E-flat tenor horn', 'brass', -9, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['baritone', 'B-flat baritone', 'brass', -14, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['euphonium', 'euphonium', 'brass', -14, 'treble', 'C3', 'C6', 'G3', 'G5'],
  ['euphonium-bass-clef', 'euphonium, bass clef', 'brass', 0, 'bass', 'Bb1', 'Bb4', 'F2', 'F4'],
  ['trombone', 'trombone', 'brass', 0, 'bass', 'E2', 'Bb4', 'F2', 'F4'],
  ['trombone-treble-clef', 'trombone, treble clef', 'brass', -14, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['bass-trombone', 'bass trombone', 'brass', 0, 'bass', 'Bb1', 'G4', 'C2', 'D4'],
  ['eb-bass', 'E-flat bass', 'brass', -21, 'treble', 'F#3', 'C6', 'G3', 'G5'],
  ['bb-bass', 'B-flat bass', 'brass', -26, 'treble', 'F#3', 'A5', 'G3', 'F5'],
  ['tuba', 'tuba', 'brass', 0, 'bass', 'D1', 'F4', 'F1', 'Bb3'],
  ['horn', 'horn in F', 'brass', -7, 'treble', 'F#2', 'C6', 'C4', 'G5'],
  ['clarinet', 'B-flat clarinet', 'reed', -2, 'treble', 'E3', 'G6', 'E3', 'C6'],
  ['a-clarinet', 'A clarinet', 'reed', -3, 'treble', 'E3', 'G6', 'E3', 'C6'],
  ['eb-clarinet', 'E-flat clarinet', 'reed', 3, 'treble', 'E3', 'G6', 'E3', 'C6'],
  ['bass-clarinet', 'bass clarinet', 'reed', -14, 'treble', 'Eb3', 'E6', 'E3', 'C6'],
  ['soprano-saxophone', 'soprano saxophone', 'reed', -2, 'treble', 'Bb3', 'F6', 'D4', 'C6'],
  ['alto-saxophone', 'alto saxophone', 'reed', -9, 'treble', 'Bb3', 'F6', 'D4', 'C6'],
  ['tenor-saxophone', 'tenor saxophone', 'reed', -14, 'treble', 'Bb3', 'F6', 'D4', 'C6'],
  ['baritone-saxophone', 'baritone saxophone', 'reed', -21, 'treble', 'A3', 'F6', 'D4', 'C6'],
  ['oboe', 'oboe', 'reed', 0, 'treble', 'Bb3', 'F6', 'D4', 'C6'],
  ['english-horn', 'English horn', 'reed', -7, 'treble', 'B3', 'E6', 'D4', 'C6'],
  ['bassoon', 'bassoon', 'reed', 0, 'bass', 'Bb1', 'Bb4', 'F2', 'F4'],
  ['flute', 'flute', 'flute', 0, 'treble', 'B3', 'D7', 'D4', 'G6'],
  ['flute-c-foot', 'flute, foot joint in C', 'flute', 0, 'treble', 'C4', 'D7', 'D4', 'G6'],
  ['piccolo', 'piccolo', 'flute', 12, 'treble', 'D4', 'C7', 'D4', 'G6'],
  ['alto-flute', 'alto flute', 'flute', -5, 'treble', 'C4', 'C7', 'D4', 'D6'],
  ['bass-flute', 'bass flute', 'flute', -12, 'treble', 'C4', 'C7', 'D4', 'D6'],
  ['descant-recorder', 'descant recorder', 'flute', 12, 'treble', 'C4', 'D6', 'C4', 'A5'],
];

export const INSTRUMENTS: readonly Instrument[] = ROWS.map(
  ([id, name, family, transposition, clef, low, high, easyLow, easyHigh]) => ({
    id,
    name,
    family,
    transposition,
    clef,
    low,
    high,
    easyLow,
    easyHigh,
    breaks: id.endsWith('clarinet') ? CLARINETS : null,
  }),
);

/** What is played when nobody says otherwise. */
export const DEFAULT_INSTRUMENT = 'cornet';

/**
 * The instrument of that short name or full name, in small letters or not, 'Bb' for 'B-flat'; null if there is none.
 */
export function instrumentNamed(name: string): Instrument | null {
  const wanted = name
    .trim()
    .toLowerCase()
    .replace(/^([a-g])(?:b|♭) /u, '$1-flat ');
  return INSTRUMENTS.find((one) => one.id === wanted || one.name.toLowerCase() === wanted) ?? null;
}
