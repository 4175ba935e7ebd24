import { bpmText } from '../../music/time/tempo-text.ts';
import { troubleLine } from '../../plan/file/place-in-file.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson, printLines } from '../output/print.ts';

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

/** Two lines: what it is called, and what may be asked of it. */
function linesOf(exercise: Exercise): readonly string[] {
  const { id, title, kind, keys, articulations } = exercise;
  return [
    `${id.padEnd(24)} ${title} (${kind})`,
    `${' '.repeat(24)} ${tempoOf(exercise)} · ${few(articulations, 4)} · ${few(keys, 6)}`,
  ];
}

export async function exercises(options: ExercisesOptions): Promise<void> {
  const loaded = await routinesOf(dataFolderOf(options).path);
  for (const trouble of loaded.troubles) process.stderr.write(`${troubleLine(trouble)}\n`);
  const found = [...exercisesOf(loaded).values()];
  if (options.json) printJson(found.map(({ exercise, routine }) => ({ ...exercise, routine: routine.id })));
  else printLines(found.flatMap(({ exercise }) => linesOf(exercise)));
}
