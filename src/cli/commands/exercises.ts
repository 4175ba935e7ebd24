import { bpmText } from '../../music/time/tempo-text.ts';
import { troubleLine } from '../../plan/file/place-in-file.ts';
import { type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { roundOn } from '../../plan/routine/one-voice-round.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { type FoundExercise, exercisesOf } from '../../runtime/files/routine-finder.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { playersSettings } from '../files/players-settings.ts';
import { complain, printJson, printLines } from '../output/print.ts';

export interface ExercisesOptions extends DataOption {
  readonly json?: boolean;
}

/** The names of a long list, shortened to what a line holds. */
function few(words: readonly string[], most: number): string {
  const shown = words.slice(0, most).join(', ');
  return words.length > most ? `${shown} and ${words.length - most} more` : shown;
}

function tempoOf({ work = 'ladder', ladder, breaths }: Exercise): string {
  if (work === 'ladder') return `${bpmText(ladder.start)} to ${bpmText(ladder.target)}`;
  return work === 'breaths' ? `${breaths ?? ''} breaths` : 'by the clock';
}

/** What it is called, what may be asked of it, and what its keys come to on the player's instrument. */
function linesOf(exercise: Exercise, instrument: Instrument | null): readonly string[] {
  const { id, title, kind, keys, articulations } = exercise;
  const round = instrument && roundOn(exercise, instrument);
  const notes = round ? ` · ${round.lowest.name} to ${round.highest.name}` : '';
  const more = [`${tempoOf(exercise)} · ${few(articulations, 4)} · ${few(keys, 6)}${notes}`, ...(round?.jumps ?? [])];
  return [`${id.padEnd(24)} ${title} (${kind})`, ...more.map((line) => `${' '.repeat(24)} ${line}`)];
}

export async function exercises(options: ExercisesOptions): Promise<void> {
  const loaded = await routinesOf(dataFolderOf(options).path);
  for (const trouble of loaded.troubles) complain(troubleLine(trouble));
  const found = [...exercisesOf(loaded).values()];
  if (options.json) printJson(found.map(({ exercise, routine }) => ({ ...exercise, routine: routine.id })));
  else {
    const { instrument } = await playersSettings(dataFolderOf(options));
    const onIt = ({ exercise, routine }: FoundExercise): readonly string[] =>
      linesOf(exercise, instrumentNamed(instrument ?? routine.instrument));
    printLines(found.flatMap(onIt));
  }
}
