/** A drill as a tune in ABC notation, version 2.1, syllables as lyrics. */
import { bpmText } from '../time/tempo-text.ts';
import type { Drill } from '../tongue/drill.ts';
import { type PrintedNote, engraved, oneLine } from './engraving.ts';
import type { Heading } from './musicxml.ts';
import { tonicAt } from '../pitch/keys.ts';
import { type Ratio, divide, format, ratio } from '../time/ratio.ts';

const SIGNS: Readonly<Record<string, string>> = { '-2': '__', '-1': '_', '0': '=', '1': '^', '2': '^^' };
const MODES: Readonly<Record<string, string>> = {
  dorian: 'dor',
  phrygian: 'phr',
  lydian: 'lyd',
  mixolydian: 'mix',
  locrian: 'loc',
};
/** The unit in which lengths are counted. */
const UNIT: Ratio = ratio(1, 8);
const BARS_IN_LINE = 2;

/** Text of a field: a percent sign would begin a comment, a backslash an escape. */
const plain = (text: string): string => oneLine(text).replaceAll('%', '').replaceAll('\\', '');

function keyField({ tonality, instrument }: Drill): string {
  const mode = MODES[tonality.scale.name] ?? (tonality.scale.signature === -3 ? 'm' : '');
  // Without a mode of its own in ABC a scale stands in the major key of its signature.
  const key = mode === '' ? tonicAt(tonality.fifths) : `${tonality.tonic}${mode}`;
  const transpose = instrument.transposition === 0 ? '' : ` transpose=${instrument.transposition}`;
  return `K:${key} clef=${instrument.clef}${transpose}`;
}

function meterField({ meter }: Drill): string {
  const uneven = new Set(meter.groups).size > 1;
  return uneven ? `M:(${meter.groups.join('+')})/${meter.unit}` : `M:${meter.count}/${meter.unit}`;
}

/** Length as a factor of the unit: '' for one, '2', '/2', '3/2'. */
function lengthText(length: Ratio): string {
  const times = divide(length, UNIT);
  if (times.n === 1 && times.d === 1) return '';
  if (times.n === 1) return `/${times.d}`;
  return format(times);
}

/** Written without its tuplet, whose mark stands before the group. */
const nominal = ({ length, value }: PrintedNote): Ratio =>
  value.tuplet ? divide(length, ratio(value.tuplet.inTimeOf, value.tuplet.notes)) : length;

function pitchText({ pitch, accidental }: PrintedNote): string {
  if (!pitch) return 'z';
  const sign = accidental ? (SIGNS[`${pitch.alter}`] ?? '') : '';
  const letter = pitch.octave >= 5 ? pitch.letter.toLowerCase() : pitch.letter;
  const octaves = pitch.octave >= 5 ? "'".repeat(pitch.octave - 5) : ','.repeat(4 - pitch.octave);
  return `${sign}${letter}${octaves}`;
}

/** '(3:2:3' before the first note of a tuplet: how many notes, in the time of how many, for how many signs. */
function tupletText(notes: readonly PrintedNote[], i: number): string {
  const times = notes[i]?.value.tuplet;
  if (!times || !notes[i]?.tupletStart) return '';
  const signs = notes.slice(i).findIndex((note) => note.tupletStop) + 1;
  return `(${times.notes}:${times.inTimeOf}:${Math.max(1, signs)}`;
}

function noteText(notes: readonly PrintedNote[], i: number): string {
  const note = notes[i];
  if (!note) return '';
  const space = i > 0 && notes[i - 1]?.bar === note.bar && notes[i - 1]?.group !== note.group ? ' ' : '';
  const [open, close] = [note.slurStart ? '(' : '', note.slurStop ? ')' : ''];
  const sounding = `${pitchText(note)}${lengthText(nominal(note))}${note.tieStart ? '-' : ''}`;
  return `${space}${tupletText(notes, i)}${open}${sounding}${close}`;
}

/** One line of music and the line of its syllables; a star passes over a note, rests are passed over of themselves. */
function systemLines(
  notes: readonly PrintedNote[],
  firstBar: number,
  lastBar: number,
  end: boolean,
): readonly string[] {
  const bars = Array.from({ length: lastBar - firstBar }, (_, k) =>
    notes.map((note, i) => (note.bar === firstBar + k ? noteText(notes, i) : '')).join(''),
  );
  const words = notes.filter((note) => note.bar >= firstBar && note.bar < lastBar && note.pitch);
  return [
    `${bars.join(' | ')} ${end ? '|]' : '|'}`,
    `w: ${words.map((note) => (note.syllable === '' ? '*' : note.syllable)).join(' ')}`,
  ];
}

/** The whole file, ending in a newline. */
export function abc(drill: Drill, heading: Heading): string {
  const notes = engraved(drill);
  const tempo = heading.bpm === null ? [] : [`Q:${format(drill.beat)}=${bpmText(heading.bpm)}`];
  const systems = Array.from({ length: Math.ceil(drill.bars / BARS_IN_LINE) }, (_, k) => {
    const last = Math.min((k + 1) * BARS_IN_LINE, drill.bars);
    return systemLines(notes, k * BARS_IN_LINE, last, last === drill.bars);
  });
  return [
    '%abc-2.1',
    'X:1',
    `T:${plain(heading.title)}`,
    `T:${plain(heading.subtitle)}`,
    meterField(drill),
    `L:${format(UNIT)}`,
    ...tempo,
    keyField(drill),
    ...systems.flat(),
    '',
  ].join('\n');
}
