/** A list by hand kept as a routine: a file as a person would write it. */
import { DEFAULT_INSTRUMENT } from '../../music/pitch/instruments.ts';
import type { ListItem } from '../../diary/entry.ts';
import { qualifiedName } from '../routine/exercise-identity.ts';
import type { Exercise } from '../routine/exercise.ts';
import { flowText, lineText } from './written-text.ts';

/** Half minutes are as fine as a file says it. */
const minutesOf = (length: number): number => Math.max(0.5, Math.round(length / 30) / 2);

function blockText({ exercise, title, length }: ListItem, exercises: readonly Exercise[]): string {
  const minutes = minutesOf(length);
  const known = exercises.find(({ id }) => id === exercise);
  return known ? `${qualifiedName(known)}: ${minutes}` : flowText({ do: title, minutes });
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
    '',
    'parts:',
    `  - ${lineText('part', title)}`,
    '    blocks:',
    ...items.map((item) => `      - ${blockText(item, exercises)}`),
    '',
  ].join('\n');
}
