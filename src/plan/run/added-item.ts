/** Something put at the end of a sitting while it runs, or after it: five minutes left over. */
import { BY_HAND, type ListItem } from '../../diary/entry.ts';
import type { Exercise } from '../routine/exercise.ts';
import { blockName, handItem } from '../today/hand-list.ts';
import { openAt } from './block-end.ts';
import { type RunItem, plannedItem } from './run-items.ts';
import { step } from './run-steps.ts';
import type { Run, RunStep } from './run.ts';

/** A run item that lies ready. */
export function runItemOf(block: string, one: ListItem, exercises: readonly Exercise[], before = 0): RunItem {
  const { minutes: _, ...item } = handItem(block, one, exercises);
  return { ...item, length: one.length, played: 0, before, state: 'open' };
}

/** At the end of what is to come; where nothing is, it lies ready at once. Names in `taken` are another thing's. */
export function addItem(
  run: Run,
  one: ListItem,
  exercises: readonly Exercise[],
  taken: readonly string[] = [],
): RunStep {
  const here = run.items.filter(({ part }) => part === BY_HAND).map(({ block }) => block);
  const item = runItemOf(blockName(one, [...here, ...taken]), one, exercises);
  const added: Run = { ...run, items: [...run.items, item] };
  const said = { kind: 'added', routine: run.routine, item: plannedItem(item) } as const;
  const record = { do: 'record', record: said } as const;
  if (run.phase !== 'finished') return step(added, record);
  return step(openAt(added, run.items.length), record, { do: 'open', item });
}
