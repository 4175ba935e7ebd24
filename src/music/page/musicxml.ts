/** A drill as a MusicXML 4.0 score of one part (W3C Music Notation Community Group), syllables as lyrics. */
import { bpmText } from '../time/tempo-text.ts';
import type { Drill } from '../tongue/drill.ts';
import { type PrintedNote, engraved, flags, oneLine } from './engraving.ts';
import type { Instrument } from '../pitch/instruments.ts';
import { type Ratio, multiply, ratio } from '../time/ratio.ts';
import type { Bpm } from '../../common/units.ts';

export interface Heading {
  readonly title: string;
  /** Under the title: key, articulation. */
  readonly subtitle: string;
  readonly bpm: Bpm | null;
}

const TYPES: Readonly<Record<number, string>> = {
  1: 'whole',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
  128: '128th',
};
const ACCIDENTALS: Readonly<Record<string, string>> = {
  '-2': 'flat-flat',
  '-1': 'flat',
  '0': 'natural',
  '1': 'sharp',
  '2': 'double-sharp',
};
const MODES: readonly string[] = ['dorian', 'phrygian', 'lydian', 'mixolydian', 'locrian'];

const escaped = (text: string): string =>
  oneLine(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Parts of a quarter that every length is a whole number of. */
const divisionsFor = (notes: readonly PrintedNote[]): number =>
  notes.map(({ length }) => multiply(length, ratio(4)).d).reduce((a, b) => (a * b) / gcd(a, b), 1);

const duration = (length: Ratio, divisions: number): number => multiply(length, ratio(4 * divisions)).n;

const modeOf = ({ tonality: { scale } }: Drill): string =>
  MODES.includes(scale.name) ? scale.name : scale.signature === -3 ? 'minor' : 'major';

const CLEFS = { treble: ['G', 2], bass: ['F', 4] } as const;
/** Scale steps in as many semitones, within an octave. */
const STEPS: readonly number[] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];

function transposeLines({ transposition }: Instrument): readonly string[] {
  if (transposition === 0) return [];
  const octaves = Math.trunc(transposition / 12);
  const chromatic = transposition - 12 * octaves;
  const diatonic = (STEPS[Math.abs(chromatic)] ?? 0) * Math.sign(chromatic);
  const change = octaves === 0 ? [] : [`<octave-change>${octaves}</octave-change>`];
  return [
    '<transpose>',
    `<diatonic>${diatonic}</diatonic>`,
    `<chromatic>${chromatic}</chromatic>`,
    ...change,
    '</transpose>',
  ];
}

function attributes(drill: Drill, divisions: number): readonly string[] {
  const { meter, tonality, instrument } = drill;
  const [sign, line] = CLEFS[instrument.clef];
  const beats = new Set(meter.groups).size > 1 ? meter.groups.join('+') : `${meter.count}`;
  return [
    '<attributes>',
    `<divisions>${divisions}</divisions>`,
    `<key><fifths>${tonality.fifths}</fifths><mode>${modeOf(drill)}</mode></key>`,
    `<time><beats>${beats}</beats><beat-type>${meter.unit}</beat-type></time>`,
    `<clef><sign>${sign}</sign><line>${line}</line></clef>`,
    ...transposeLines(instrument),
    '</attributes>',
  ];
}

function tempoLines({ beat }: Drill, bpm: Bpm | null): readonly string[] {
  if (bpm === null) return [];
  const dotted = beat.n === 3;
  const type = TYPES[dotted ? beat.d / 2 : beat.d];
  if (type === undefined || (beat.n !== 1 && !dotted)) return [];
  const unit = `<beat-unit>${type}</beat-unit>${dotted ? '<beat-unit-dot/>' : ''}`;
  return [
    '<direction placement="above">',
    `<direction-type><metronome>${unit}<per-minute>${bpmText(bpm)}</per-minute></metronome></direction-type>`,
    `<sound tempo="${bpmText((bpm * beat.n * 4) / beat.d)}"/>`,
    '</direction>',
  ];
}

/** Beams of a note, from the notes beside it in its group. */
function beamLines(
  note: PrintedNote,
  before: PrintedNote | undefined,
  after: PrintedNote | undefined,
): readonly string[] {
  const level = (other: PrintedNote | undefined): number =>
    other?.pitch && other.bar === note.bar && other.group === note.group ? flags(other.value) : 0;
  const [own, left, right] = [note.pitch ? flags(note.value) : 0, level(before), level(after)];
  if (left === 0 && right === 0) return [];
  return Array.from({ length: own }, (_, k) => {
    const [joinsLeft, joinsRight] = [left > k, right > k];
    const hook = left > 0 ? 'backward hook' : 'forward hook';
    const how = joinsLeft && joinsRight ? 'continue' : joinsLeft ? 'end' : joinsRight ? 'begin' : hook;
    return `<beam number="${k + 1}">${how}</beam>`;
  });
}

function notationLines(note: PrintedNote): readonly string[] {
  const lines = [
    ...(note.tieStop ? ['<tied type="stop"/>'] : []),
    ...(note.tieStart ? ['<tied type="start"/>'] : []),
    ...(note.slurStop ? ['<slur type="stop" number="1"/>'] : []),
    ...(note.slurStart ? ['<slur type="start" number="1"/>'] : []),
    ...(note.tupletStart ? ['<tuplet type="start" bracket="yes"/>'] : []),
    ...(note.tupletStop ? ['<tuplet type="stop"/>'] : []),
  ];
  return lines.length > 0 ? ['<notations>', ...lines, '</notations>'] : [];
}

function pitchLine({ pitch, wholeBar }: PrintedNote): string {
  if (!pitch) return wholeBar ? '<rest measure="yes"/>' : '<rest/>';
  const alter = pitch.alter === 0 ? '' : `<alter>${pitch.alter}</alter>`;
  return `<pitch><step>${pitch.letter}</step>${alter}<octave>${pitch.octave}</octave></pitch>`;
}

function noteLines(
  note: PrintedNote,
  before: PrintedNote | undefined,
  after: PrintedNote | undefined,
  divisions: number,
): readonly string[] {
  const { value, pitch } = note;
  const times = value.tuplet;
  const isRestOfBar = !pitch && note.wholeBar;
  return [
    '<note>',
    pitchLine(note),
    `<duration>${duration(note.length, divisions)}</duration>`,
    ...(note.tieStop ? ['<tie type="stop"/>'] : []),
    ...(note.tieStart ? ['<tie type="start"/>'] : []),
    '<voice>1</voice>',
    ...(isRestOfBar
      ? []
      : [`<type>${TYPES[value.head] ?? 'quarter'}</type>`, ...Array.from({ length: value.dots }, () => '<dot/>')]),
    ...(note.accidental ? [`<accidental>${ACCIDENTALS[`${pitch?.alter ?? 0}`] ?? 'natural'}</accidental>`] : []),
    ...(times
      ? [
          `<time-modification><actual-notes>${times.notes}</actual-notes>` +
            `<normal-notes>${times.inTimeOf}</normal-notes></time-modification>`,
        ]
      : []),
    ...beamLines(note, before, after),
    ...notationLines(note),
    ...(note.syllable === ''
      ? []
      : [`<lyric number="1"><syllabic>single</syllabic><text>${escaped(note.syllable)}</text></lyric>`]),
    '</note>',
  ];
}

function measureLines(drill: Drill, notes: readonly PrintedNote[], heading: Heading): readonly string[] {
  const divisions = divisionsFor(notes);
  return Array.from({ length: drill.bars }, (_, bar) => [
    `<measure number="${bar + 1}">`,
    ...(bar === 0 ? [...attributes(drill, divisions), ...tempoLines(drill, heading.bpm)] : []),
    ...notes.flatMap((note, i) => (note.bar === bar ? noteLines(note, notes[i - 1], notes[i + 1], divisions) : [])),
    ...(bar === drill.bars - 1 ? ['<barline location="right"><bar-style>light-heavy</bar-style></barline>'] : []),
    '</measure>',
  ]).flat();
}

function partLines({ name }: Instrument): readonly string[] {
  const instrument =
    `<score-instrument ` + `id="P1-I1"><instrument-name>${escaped(name)}</instrument-name></score-instrument>`;
  return [
    '<part-list>',
    `<score-part id="P1"><part-name>${escaped(name)}</part-name>${instrument}</score-part>`,
    '</part-list>',
  ];
}

/**
 * The whole file, ending in a newline. The time and the author are left out, so that the same drill gives the same
 * file.
 */
export function musicXml(drill: Drill, heading: Heading): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" ' +
      '"http://www.musicxml.org/dtds/partwise.dtd">',
    '<score-partwise version="4.0">',
    `<work><work-title>${escaped(heading.title)}</work-title></work>`,
    `<movement-title>${escaped(`${heading.title}: ${heading.subtitle}`)}</movement-title>`,
    '<identification><encoding><software>standside</software></encoding></identification>',
    ...partLines(drill.instrument),
    '<part id="P1">',
    ...measureLines(drill, engraved(drill), heading),
    '</part>',
    '</score-partwise>',
    '',
  ].join('\n');
}
