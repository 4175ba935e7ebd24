import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';
import type { Hertz, Seconds } from '../../common/units.ts';
import { type Tuning, expectedNotes } from '../../ear/expected-notes.ts';
import { concertTonic } from '../../music/pitch/drone-place.ts';
import { DEFAULT_INSTRUMENT } from '../../music/pitch/instruments.ts';
import { instrumentAsked } from '../../runtime/asked/drill-asked.ts';
import { systemClock } from '../../runtime/clock.ts';
import { openPlayerData } from '../../runtime/files/player-data.ts';
import { LONGEST, hearExercise, hearTones } from '../../runtime/asked/recording-heard.ts';
import { type DrillOfExercise, drillOfExercise } from '../files/drill-of-exercise.ts';
import { playersSettings } from '../files/players-settings.ts';
import { orTrouble } from '../files/or-trouble.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { numberOption } from '../options/number-option.ts';
import {
  type ExerciseReport,
  exerciseJson,
  exerciseText,
  rounded,
  tonesJson,
  tonesText,
} from '../output/heard-listing.ts';
import { printJson, remark } from '../output/print.ts';

export interface ListenOptions extends DataOption {
  readonly exercise?: string;
  readonly key?: string;
  readonly articulation?: string;
  readonly tempo?: string;
  readonly start?: string;
  readonly tuning?: string;
  readonly instrument?: string;
  readonly range?: string;
  readonly fit?: string;
  readonly keep?: boolean;
  readonly json?: boolean;
}

/** What only an exercise has. */
const OF_EXERCISE = ['key', 'articulation', 'tempo', 'start', 'tuning', 'range', 'fit', 'keep'] as const;

const startOf = ({ start }: ListenOptions): Seconds | null =>
  start === undefined
    ? null
    : numberOption(start, {
        option: 'start',
        right: `seconds from 0 to ${LONGEST}, like 2.5`,
        fits: (value) => value >= 0 && value <= LONGEST,
      });

/** The tuning of the drone that it is played over; pure unless its file says otherwise. */
function tuningOf({ tuning }: ListenOptions, { drone }: DrillOfExercise): Tuning['tuning'] {
  if (tuning === undefined) return drone === null ? 'equal' : (drone.tuning ?? 'just');
  if (tuning === 'just' || tuning === 'equal') return tuning;
  throw new Trouble(`--tuning '${harmless(tuning, 20)}': give just or equal.`);
}

const pulsesOf = ({ drill, bpm }: DrillOfExercise): Hertz | null =>
  drill.articulation.pulses === undefined ? null : (drill.articulation.pulses * bpm) / 60;

/** On the disk before it is printed. @throws Trouble where nothing can be kept. */
function keepHeard(
  report: ExerciseReport & Pick<DrillOfExercise, 'key'>,
  options: ListenOptions,
  dayStart: number,
): void {
  const { drill, key, heard, bpm, a4, exercise, tuning } = report;
  const notes = heard.tendencies.map(rounded);
  if (notes.length === 0) return remark('Nothing was kept: no note was long and clear enough.');
  const data = openPlayerData(options.data, systemClock, () => dayStart);
  try {
    const line = { exercise, articulation: drill.articulation.name, key };
    const of = { bpm, instrument: drill.instrument.id, tuning: tuning.tuning, a4 };
    orTrouble(data.store.append(data.stamp({ kind: 'heard', ...line, ...of, notes })));
  } finally {
    data.close();
  }
}

async function listenToExercise(file: string, name: string, options: ListenOptions): Promise<void> {
  const start = startOf(options);
  const found = await drillOfExercise(name, options);
  const settings = await playersSettings(dataFolderOf(options));
  const { drill, bpm, a4 } = found;
  const tuning: Tuning = {
    tuning: tuningOf(options, found),
    tonic: concertTonic(drill.tonality.tonic, drill.instrument.transposition),
    a4,
  };
  const heard = hearExercise({ path: file, notes: expectedNotes(drill, bpm, tuning), start });
  const report = { ...found, ...heard, tuning, pulses: pulsesOf(found), startGiven: start !== null };
  if (options.keep) keepHeard(report, options, settings.dayStart);
  heard.remarks.forEach(remark);
  if (options.json) printJson(exerciseJson(report));
  else process.stdout.write(exerciseText(report));
}

async function listenToTones(file: string, options: ListenOptions): Promise<void> {
  const alone = OF_EXERCISE.find((option) => options[option] !== undefined);
  if (alone) throw new Trouble(`--${alone} goes with an exercise only; name one with --exercise.`, 2);
  const settings = await playersSettings(dataFolderOf(options));
  const instrument = instrumentAsked(options.instrument ?? settings.instrument ?? DEFAULT_INSTRUMENT);
  const heard = hearTones(file, settings.a4);
  const report = { ...heard, instrument, a4: settings.a4 };
  heard.remarks.forEach(remark);
  if (options.json) printJson(tonesJson(report));
  else process.stdout.write(tonesText(report));
}

/** Hears a file once through; of an exercise the numbers are kept where that is asked, of the sound nothing. */
export const listen = (file: string, options: ListenOptions): Promise<void> =>
  options.exercise === undefined ? listenToTones(file, options) : listenToExercise(file, options.exercise, options);
