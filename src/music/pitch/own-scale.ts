/** A scale of the player's own, written in degrees of the major scale: '1 2 b3 #4 5 6 b7'. */
import type { Scale } from './scale.ts';
import type { Semitones } from '../../common/units.ts';

interface Degree {
  /** 1 to 7. */
  readonly number: number;
  /** 1 for a sharp, -1 for a flat. */
  readonly alter: number;
}

const DEGREE = /^([#♯b♭]?)([1-7])$/u;
const SEMITONES: readonly Semitones[] = [0, 2, 4, 5, 7, 9, 11];
const MOST = 12;

function readDegree(word: string): Degree | null {
  const [, sign = '', number] = DEGREE.exec(word) ?? [];
  if (number === undefined) return null;
  return { number: Number(number), alter: sign === '' ? 0 : sign === '#' || sign === '♯' ? 1 : -1 };
}

const semitones = ({ number, alter }: Degree): Semitones => (SEMITONES[number - 1] ?? 0) + alter;

/** 'b3' is '3m', '#4' is '4A', 'b5' is '5d'. */
function intervalOf({ number, alter }: Degree): string {
  const isPerfect = [1, 4, 5].includes(number);
  if (alter > 0) return `${number}A`;
  return `${number}${alter === 0 ? (isPerfect ? 'P' : 'M') : isPerfect ? 'd' : 'm'}`;
}

/** The major scale's degrees in the order in which flats reach them; the first sharp reaches the fourth. */
const FLATS: readonly number[] = [7, 3, 6, 2, 5];
/** Signatures of major, minor and the modes; of equally good ones the first. */
const SIGNATURES: readonly number[] = [0, -3, -2, -1, 1, -4, -5];

const alteredIn = (fifths: number, number: number): number =>
  fifths > 0 ? (number === 4 ? 1 : 0) : FLATS.slice(0, -fifths).includes(number) ? -1 : 0;

/** The signature that leaves the fewest notes with a sign of their own. */
function signatureOf(degrees: readonly Degree[]): number {
  const signs = (fifths: number): number =>
    degrees.filter(({ number, alter }) => alter !== alteredIn(fifths, number)).length;
  return SIGNATURES.reduce((best, fifths) => (signs(fifths) < signs(best) ? fifths : best));
}

const name = ({ number, alter }: Degree): string => `${alter === 0 ? '' : alter > 0 ? '#' : 'b'}${number}`;

/** Whether a text is meant as degrees: it begins with a figure, or with a sign and a figure. */
const isInDegrees = (text: string): boolean => /^[#♯b♭]?\d/u.test(text);

/** The scale, one sentence about what is wrong with its degrees, or null for a text that is no row of degrees. */
export function ownScale(text: string): Scale | string | null {
  const words = text.split(/[\s,]+/u).filter((word) => word !== '');
  if (!isInDegrees(text.trim())) return null;
  const right = 'write at least two rising degrees from 1 on, like 1 2 b3 #4 5 6 b7.';
  const degrees = words.map(readDegree);
  const wrong = words[degrees.indexOf(null)];
  if (wrong !== undefined) return `'${wrong}' is no degree of a scale of your own; ${right}`;
  const read = degrees.filter((degree) => degree !== null);
  const rises = read.map(semitones).every((step, i, all) => (i === 0 ? step === 0 : step > (all[i - 1] ?? 0)));
  if (!rises || read.length < 2 || read.length > MOST || (read.at(-1) && semitones(read.at(-1) as Degree) > 11))
    return `'${text}' is no scale of your own; ${right}`;
  const up = read.map(intervalOf);
  const isCrowded = new Set(read.map(({ number }) => number)).size < read.length;
  const called = read.map(name).join(' ');
  return {
    name: called,
    called: `own scale (${called})`,
    aliases: [],
    up,
    down: up,
    signature: signatureOf(read),
    simple: isCrowded,
    parallelMinor: null,
    kind: 'scale',
  };
}
