/** What was heard in a recording, as text and as JSON. */
import type { Bpm, Cents, Hertz, Seconds } from '../../common/units.ts';
import { tenth } from '../../ear/cents.ts';
import type { Evenness } from '../../ear/evenness.ts';
import type { ExerciseHeard, NotePlayed, Tendency } from '../../ear/exercise-heard.ts';
import type { Tuning } from '../../ear/expected-notes.ts';
import type { HeardNote } from '../../ear/note-heard.ts';
import type { ToneHeard } from '../../ear/tones-heard.ts';
import type { Vibrato } from '../../ear/vibrato.ts';
import type { Instrument } from '../../music/pitch/instruments.ts';
import { plainName } from '../../music/pitch/plain-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Drill } from '../../music/tongue/drill.ts';
import { textTable } from './text-table.ts';

/** What is true of every figure here. */
export const CAUTION =
  'Tried on made tones and sounds of a synthesiser only, on no real player or room: trust your ear first.';

export interface ExerciseReport {
  readonly exercise: string;
  readonly drill: Drill;
  readonly bpm: Bpm;
  readonly a4: Hertz;
  readonly tuning: Tuning;
  readonly heard: ExerciseHeard;
  /** Of vibrato, where they are what is practised. */
  readonly pulses: Hertz | null;
  /** Whether early and late mean anything: the player said when the first beat was. */
  readonly startGiven: boolean;
}

/** '+14', '−3', '0'. */
export const signed = (value: number): string => {
  const whole = Math.round(value);
  return whole === 0 ? '0' : whole > 0 ? `+${whole}` : `−${-whole}`;
};

const milliseconds = (value: Seconds): number => Math.round(value * 1000);

const vibratoText = (vibrato: Vibrato | null): string =>
  vibrato === null ? '–' : `${vibrato.rate.toFixed(1)} Hz ±${Math.round(vibrato.extent)}`;

const vibratoJson = (vibrato: Vibrato | null): object | null =>
  vibrato && {
    hertz: Math.round(vibrato.rate * 100) / 100,
    cents: tenth(vibrato.extent),
    unevenness: vibrato.unevenness === null ? null : Math.round(vibrato.unevenness * 1000) / 1000,
  };

const noteJson = (heard: HeardNote): object => ({
  from: Number(heard.from.toFixed(3)),
  seconds: Number((heard.to - heard.from).toFixed(3)),
  cents: tenth(heard.cents),
  beginning: tenth(heard.beginning),
  middle: tenth(heard.middle),
  end: tenth(heard.end),
  spread: tenth(heard.spread),
  drift: tenth(heard.drift),
  level: tenth(heard.level),
  unevenLevel: tenth(heard.unevenLevel),
  vibrato: vibratoJson(heard.vibrato),
  line: heard.line.map(({ at, cents }) => [Number(at.toFixed(2)), tenth(cents)]),
});

const evennessJson = (evenness: Evenness | null, startGiven: boolean): object | null =>
  evenness && {
    experimental: true,
    expected: evenness.expected,
    heard: evenness.heard,
    lateMs: startGiven ? milliseconds(evenness.late) : null,
    spreadMs: tenth(evenness.spread * 1000),
    spreadShare: Math.round(evenness.share * 1000) / 1000,
    places: evenness.places.map(({ place, late, notes }) => ({ place, lateMs: tenth(late * 1000), notes })),
    syllables: evenness.syllables.map(({ syllable, late, notes }) => ({ syllable, lateMs: tenth(late * 1000), notes })),
  };

const playedJson = ({ note, heard }: NotePlayed): object => ({
  bar: note.bar + 1,
  beat: note.beat + 1,
  name: note.name,
  written: note.written,
  hertz: Number(note.hertz.toFixed(4)),
  heard: heard && noteJson(heard),
});

/** To a tenth of a cent, as it is printed and kept. */
export const rounded = (one: Tendency): Tendency => ({
  ...one,
  cents: tenth(one.cents),
  beginning: tenth(one.beginning),
  middle: tenth(one.middle),
  end: tenth(one.end),
  spread: tenth(one.spread),
});

export const exerciseJson = (report: ExerciseReport & { readonly seconds: Seconds }): object => ({
  exercise: report.exercise,
  key: report.drill.tonality.name,
  bpm: report.bpm,
  instrument: report.drill.instrument.id,
  a4: report.a4,
  tuning: report.tuning.tuning,
  seconds: Number(report.seconds.toFixed(3)),
  start: Number(report.heard.start.toFixed(3)),
  triedOnPlayers: false,
  tendencies: report.heard.tendencies.map(rounded),
  pulsesAsked: report.pulses,
  evenness: evennessJson(report.heard.evenness, report.startGiven),
  notes: report.heard.notes.map(playedJson),
});

const CENTS = ['cents', 'begins', 'middle', 'ends', 'spread'].map((head) => ({ head, right: true }));

interface Lies {
  readonly cents: Cents;
  readonly beginning: Cents;
  readonly middle: Cents;
  readonly end: Cents;
  readonly spread: Cents;
}

const lies = ({ cents, beginning, middle, end, spread }: Lies): readonly string[] => [
  ...[cents, beginning, middle, end].map(signed),
  `${Math.round(spread)}`,
];

const tendencyTable = ({ tendencies }: ExerciseHeard): string =>
  tendencies.length === 0
    ? 'No note was long and clear enough to judge its pitch.\n'
    : textTable(
        [{ head: 'note' }, { head: 'times', right: true }, ...CENTS],
        tendencies.map((one) => [one.name, `${one.notes}`, ...lies(one)]),
      );

/** A tone of two seconds and more is looked at by itself. */
const LONG: Seconds = 2;

const LONG_COLUMNS = [
  { head: 'long tone' },
  { head: 'seconds', right: true },
  { head: 'drift', right: true },
  { head: 'level ±dB', right: true },
  { head: 'vibrato' },
];

const longCells = (name: string, heard: HeardNote): readonly string[] => [
  name,
  (heard.to - heard.from).toFixed(1),
  signed(heard.drift),
  heard.unevenLevel.toFixed(1),
  vibratoText(heard.vibrato),
];

function longTable({ notes }: ExerciseHeard): string {
  const rows = notes.flatMap(({ note, heard }) =>
    heard && heard.to - heard.from >= LONG ? [longCells(note.name, heard)] : [],
  );
  return rows.length === 0 ? '' : `\n${textTable(LONG_COLUMNS, rows)}`;
}

function evennessText({ heard: { evenness }, startGiven }: ExerciseReport): string {
  if (evenness === null) return '';
  const { heard, expected, spread, share, late, places, syllables } = evenness;
  const apart = `${(spread * 1000).toFixed(0)} ms, ${(share * 100).toFixed(1)} % of the time from note to note`;
  const mean = startGiven ? `; ${signed(late * 1000)} ms on the whole` : '';
  const drags = places.map(({ place, late: by }) => `${place.toFixed(2)}: ${signed(by * 1000)}`).join(', ');
  const spoken = syllables.map(({ syllable, late: by }) => `${syllable} ${signed(by * 1000)}`).join(', ');
  return [
    '',
    `Time (experimental): ${heard} of ${expected} tongued notes heard, spread ${apart}${mean}.`,
    'A recording itself is no surer than some milliseconds; 6 to 7 % is what practised players show.',
    ...(places.length > 1 ? [`Late (+) or early (−) in ms by place in the beat: ${drags}.`] : []),
    ...(syllables.length > 1 ? [`By syllable: ${spoken}.`] : []),
    '',
  ].join('\n');
}

const pulsesText = ({ pulses, heard }: ExerciseReport): string => {
  const rates = heard.notes.flatMap((one) => one.heard?.vibrato?.rate ?? []);
  if (pulses === null) return '';
  const found =
    rates.length === 0 ? 'no vibrato was heard' : `heard ${rates.map((rate) => rate.toFixed(1)).join(', ')}`;
  return `\nPulses asked for: ${pulses.toFixed(1)} in a second; ${found}.\n`;
};

export function exerciseText(report: ExerciseReport): string {
  const { exercise, drill, bpm, a4, tuning, heard } = report;
  const judged = heard.notes.filter((one) => one.heard !== null).length;
  const head = [
    `${exercise} · ${drill.tonality.name} · ${drill.articulation.name} · ${bpmText(bpm)}`,
    `${drill.instrument.name}, ${tuning.tuning} tuning, A = ${a4} Hz; the first beat at ${heard.start.toFixed(2)} s; ` +
      `${judged} of ${heard.notes.length} notes judged`,
    'Cents above (+) or below (−) the note; notes as written. Short notes have no line of their own.',
  ];
  const tables = tendencyTable(heard) + longTable(heard) + pulsesText(report) + evennessText(report);
  return `${head.join('\n')}\n\n${tables}\n${CAUTION}\n`;
}

export interface TonesReport {
  readonly tones: readonly ToneHeard[];
  readonly instrument: Instrument;
  readonly a4: Hertz;
  readonly seconds: Seconds;
}

const writtenName = ({ concert }: ToneHeard, { transposition }: Instrument): string =>
  plainName(concert - transposition);

export const tonesJson = ({ tones, instrument, a4, seconds }: TonesReport): object => ({
  instrument: instrument.id,
  a4,
  tuning: 'equal',
  seconds: Number(seconds.toFixed(3)),
  triedOnPlayers: false,
  tones: tones.map((tone) => ({
    name: writtenName(tone, instrument),
    written: tone.concert - instrument.transposition,
    hertz: Number(tone.hertz.toFixed(4)),
    heard: noteJson(tone.heard),
  })),
});

export function tonesText(report: TonesReport): string {
  const { tones, instrument, a4 } = report;
  if (tones.length === 0) return `No tone was long and clear enough to be judged.\n\n${CAUTION}\n`;
  const rows = tones.map((tone) => [
    tone.heard.from.toFixed(1),
    ...longCells(writtenName(tone, instrument), tone.heard),
    ...lies(tone.heard),
  ]);
  const columns = [{ head: 'at', right: true }, ...LONG_COLUMNS, ...CENTS];
  const head = `${instrument.name}, equal tuning, A = ${a4} Hz; notes as written, cents above (+) or below (−)`;
  return `${head}\n\n${textTable(columns, rows)}\n${CAUTION}\n`;
}
