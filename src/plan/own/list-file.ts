/** A list by hand kept as a routine: a file as a person would write it. */
import { DEFAULT_INSTRUMENT } from '../../music/pitch/instruments.ts';
import type { ListItem } from '../../diary/entry.ts';
import { qualifiedName } from '../routine/exercise-identity.ts';
import type { Exercise } from '../routine/exercise.ts';
import { flowText, lineText } from './written-text.ts';

/** Half minutes are as fine as a file says it. */
const minutesOf = (length: number): number => Math.max(0.5, Math.round(length / 30) / 2);

/** A file whose name has a blank in it cannot stand before a stroke; it is included. */
const isIncluded = (exercise: Exercise): boolean => qualifiedName(exercise) !== `${exercise.file}/${exercise.name}`;

const nameOf = (exercise: Exercise): string => (isIncluded(exercise) ? exercise.name : qualifiedName(exercise));

function blockText({ exercise, title, length }: ListItem, exercises: readonly Exercise[]): string {
  const minutes = minutesOf(length);
  const known = exercises.find(({ id }) => id === exercise);
  return known ? `${nameOf(known)}: ${minutes}` : flowText({ do: title, minutes });
}

function includeLines(items: readonly ListItem[], exercises: readonly Exercise[]): readonly string[] {
  const there = exercises.filter((one) => isIncluded(one) && items.some(({ exercise }) => exercise === one.id));
  const files = [...new Set(there.map(({ file }) => `${file}.yaml`))];
  return files.length === 0 ? [] : [lineText('include', files)];
}

/** Exercises are named with their files, so that the list stands wherever they are. */
export function listFileText(
  title: string,
  instrument: string,
  items: readonly ListItem[],
  exercises: readonly Exercise[],
): string {
  return [
    '# A list by hand, kept from the screen.',
    lineText('routine', title),
    ...(instrument === DEFAULT_INSTRUMENT ? [] : [lineText('instrument', instrument)]),
    ...includeLines(items, exercises),
    '',
    'parts:',
    `  - ${lineText('part', title)}`,
    '    blocks:',
    ...items.map((item) => `      - ${blockText(item, exercises)}`),
    '',
  ].join('\n');
}
