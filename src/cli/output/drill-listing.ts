/** A drill note by note, as text and as JSON. */
import { bpmText } from '../../music/time/tempo-text.ts';
import { type Drill, fastestNotes } from '../../music/tongue/drill.ts';
import { alteredBy } from '../../music/pitch/keys.ts';
import { format } from '../../music/time/ratio.ts';
import { frequencyOf } from '../../music/pitch/tuning.ts';
import type { Bpm, Hertz } from '../../common/units.ts';
import type { TonguingStep } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { textTable } from './text-table.ts';

export interface DrillReport {
  readonly exercise: string;
  readonly drill: Drill;
  readonly bpm: Bpm;
  readonly a4: Hertz;
}

const signature = (fifths: number): string =>
  [...(fifths < 0 ? 'BEADGCF' : 'FCGDAEB')]
    .filter((letter) => alteredBy(letter, fifths) !== 0)
    .map((letter) => letter + (fifths < 0 ? 'b' : '#'))
    .join(' ');

const speed = ({ drill, bpm }: DrillReport): number => Math.round(fastestNotes(drill, bpm) * 100) / 100;

/**
 * Everything that is known of each note; lengths and onsets are fractions as 'n/d' of a whole note, `inBeat` of its
 * beat.
 */
export function drillJson(report: DrillReport): object {
  const { exercise, drill, bpm, a4 } = report;
  const { tonality, meter, instrument } = drill;
  return {
    exercise,
    key: tonality.name,
    fifths: tonality.fifths,
    articulation: drill.articulation.name,
    instrument: { id: instrument.id, transposition: instrument.transposition },
    meter: `${meter.count}/${meter.unit}`,
    groups: meter.groups,
    beat: format(drill.beat),
    bpm,
    notesPerSecond: speed(report),
    bars: drill.bars,
    placed: drill.placed,
    remarks: drill.remarks,
    notes: drill.notes.map((note) => ({
      bar: note.bar + 1,
      beat: note.beat + 1,
      inBeat: format(note.inBeat),
      at: format(note.at),
      length: format(note.length),
      name: note.pitch?.name ?? null,
      written: note.pitch?.written ?? null,
      concert: note.pitch?.concert ?? null,
      hertz: note.pitch ? Number(frequencyOf(note.pitch.concert, a4).toFixed(4)) : null,
      stroke: note.stroke,
      syllable: note.syllable,
    })),
  };
}

const HELD: Readonly<Record<string, string>> = { under: '_', held: '-', rest: '' };

/** One line a note; under a slur is _ and held over is -, as in the words and the ties of ABC. */
export function drillText(report: DrillReport): string {
  const { drill, bpm } = report;
  const { meter, tonality, instrument } = drill;
  const signs = tonality.fifths === 0 ? 'no signs' : signature(tonality.fifths);
  const head = [
    `${report.exercise} · ${tonality.name} (${signs}) · ${drill.articulation.name}`,
    `${instrument.name}, ${meter.count}/${meter.unit}, ${speed(report)} notes/s at ${format(drill.beat)} = ` +
      `${bpmText(bpm)}`,
    ...drill.remarks,
  ];
  const rows = drill.notes.map((note) => [
    `${note.bar + 1}`,
    `${note.beat + 1}`,
    format(note.inBeat),
    format(note.length),
    note.pitch?.name ?? 'rest',
    `${note.pitch?.written ?? ''}`,
    `${note.pitch?.concert ?? ''}`,
    note.syllable || (HELD[note.stroke] ?? ''),
  ]);
  const columns = ['bar', 'beat', 'in beat', 'length', 'note', 'written', 'concert', 'syllable'].map((name, i) => ({
    head: name,
    right: i < 2 || i === 5 || i === 6,
  }));
  return `${head.join('\n')}\n${textTable(columns, rows)}`;
}

/** Two lines a step: articulation, first tempo and target; what it is for. */
export const stepsText = (steps: readonly TonguingStep[]): string => {
  const lines = steps.flatMap(({ line, rule, purpose }) => [
    `${line.articulation.padEnd(22)} ${bpmText(rule.start)} to ${bpmText(rule.target)}`,
    `  ${purpose}`,
  ]);
  return `${lines.join('\n')}\n`;
};
