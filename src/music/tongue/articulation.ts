/** Ways of tonguing by their names, and what each name means. */

/** A stretch of a mixed pattern: so many notes under one slur, or tongued in one way. */
export interface Segment {
  readonly how: 'slur' | 'single' | 'double' | 'back';
  readonly notes: number;
}

export type Tonguing =
  /** Everything under one slur. */
  | { readonly kind: 'slurred' }
  | { readonly kind: 'single' }
  /** The back syllable alone. */
  | { readonly kind: 'back' }
  /** T K, begun afresh on each beat. */
  | { readonly kind: 'double' }
  /** T T K or T K T, begun afresh on each beat. */
  | { readonly kind: 'triple'; readonly order: 'TTK' | 'TKT' }
  /** T K running on over the beats: TKT KTK in triplets; `anew` begins afresh with each bar. */
  | { readonly kind: 'running'; readonly anew: boolean }
  /** Slurs and tongued notes in turn. */
  | { readonly kind: 'mixed'; readonly segments: readonly Segment[] };

export interface Articulation {
  /** As the program writes it. */
  readonly name: string;
  readonly tonguing: Tonguing;
  /** Long-short turns even notes into dotted pairs (threes into long-short-short). */
  readonly rhythm: 'written' | 'long-short';
  /** Pulses of vibrato on each beat, where that is what is practised. */
  readonly pulses?: number;
}

const PLAIN: readonly (readonly [name: string, aliases: readonly string[], tonguing: Tonguing])[] = [
  ['slurred', ['slur', 'legato'], { kind: 'slurred' }],
  ['single', ['single tongue', 'tongued'], { kind: 'single' }],
  ['double', ['double tongue', 'tk'], { kind: 'double' }],
  ['triple', ['triple tongue', 'ttk', 'triple ttk'], { kind: 'triple', order: 'TTK' }],
  ['triple TKT', ['tkt'], { kind: 'triple', order: 'TKT' }],
  ['triple TKT KTK', ['tkt ktk', 'triple alternating'], { kind: 'running', anew: true }],
  ['double over triplets', ['tktktk'], { kind: 'running', anew: false }],
  ['back syllable', ['back', 'back syllable alone'], { kind: 'back' }],
];

/** The plain names; mixed patterns like 'slur 2 tongue 2' come besides. */
export const ARTICULATIONS: readonly string[] = PLAIN.map(([name]) => name);

/** The usual steps of vibrato: what `articulations: pulses` in a routine stands for. */
export const PULSES: readonly string[] = ['pulses 3', 'pulses 4', 'pulses 5', 'pulses 6'];
const MOST_PULSES = 12;

/** Ways in which the steps of a teacher's split are played; the name of the articulation stands before. */
const MANNERS = ['long-short', 'even'] as const;
type Manner = (typeof MANNERS)[number];

const MOST_IN_SEGMENT = 16;
const MOST_SEGMENTS = 8;
const HOW: Readonly<Record<string, Segment['how']>> = {
  slur: 'slur',
  tongue: 'single',
  single: 'single',
  double: 'double',
  back: 'back',
};

function segmentsOf(words: readonly string[]): readonly Segment[] | null {
  if (words.length > 2 * MOST_SEGMENTS) return null;
  const segments: Segment[] = [];
  for (let i = 0; i < words.length; i += 2) {
    const how = HOW[words[i] ?? ''];
    const notes = /^\d{1,2}$/u.test(words[i + 1] ?? '') ? Number(words[i + 1]) : 0;
    if (how === undefined || notes < 1 || notes > MOST_IN_SEGMENT) return null;
    segments.push({ how, notes });
  }
  return segments;
}

function tonguingOf(words: string): { readonly name: string; readonly tonguing: Tonguing } | null {
  const lower = words.toLowerCase();
  const plain = PLAIN.find(([name, aliases]) => name.toLowerCase() === lower || aliases.includes(lower));
  if (plain) return { name: plain[0], tonguing: plain[2] };
  const segments = segmentsOf(lower.split(' '));
  return segments && { name: lower, tonguing: { kind: 'mixed', segments } };
}

const mannerOf = (words: string): Manner | null =>
  MANNERS.find((one) => words.toLowerCase().endsWith(` ${one}`)) ?? null;

function readPulses(words: string): Articulation | null {
  const count = Number(/^pulses (\d{1,2})$/iu.exec(words)?.[1] ?? 0);
  if (count < 2 || count > MOST_PULSES) return null;
  return { name: `pulses ${count}`, tonguing: { kind: 'slurred' }, rhythm: 'written', pulses: count };
}

/**
 * Reads 'single', 'triple TKT', 'slur 2 tongue 2', 'double long-short', 'pulses 4'; a sentence where it is no way of
 * tonguing.
 */
export function readArticulation(text: string): Articulation | string {
  const words = text.trim().replaceAll(/\s+/gu, ' ');
  const pulses = readPulses(words);
  if (pulses) return pulses;
  const manner = mannerOf(words);
  const found = tonguingOf(manner ? words.slice(0, -manner.length - 1) : words);
  if (!found) {
    return (
      `'${text}' is no way of tonguing: write ${ARTICULATIONS.join(', ')}, or slurs and tongued notes in ` +
      `turn, like slur 2 tongue 2; or pulses 4 for vibrato.`
    );
  }
  return {
    name: manner ? `${found.name} ${manner}` : found.name,
    tonguing: found.tonguing,
    rhythm: manner === 'long-short' ? 'long-short' : 'written',
  };
}

/** Notes after which a mixed pattern begins again. */
export const cycleLength = (segments: readonly Segment[]): number => segments.reduce((sum, one) => sum + one.notes, 0);
