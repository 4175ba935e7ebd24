/** The small verbs that steps of a running routine are made of. */
import type { BlockEvent } from '../../diary/entry.ts';
import { type RunItem, blockRecord, isRestItem } from './run-items.ts';
import type { Run, RunEffect, RunStep } from './run.ts';

/** Nothing to be done outside. */
export const still = (run: Run): RunStep => ({ run, effects: [] });

export function andThen(step: RunStep, more: (run: Run) => RunStep): RunStep {
  const { run, effects } = more(step.run);
  return { run, effects: [...step.effects, ...effects] };
}

export const withItem = (run: Run, change: Partial<RunItem>, at = run.at): Run => ({
  ...run,
  items: run.items.map((item, i) => (i === at ? { ...item, ...change } : item)),
});

/** What the journal is told of an item's block; of a rest nothing. */
export const told = (run: Run, item: RunItem, event: BlockEvent): readonly RunEffect[] =>
  isRestItem(item) ? [] : [{ do: 'record', record: blockRecord(run.routine, run.items, item, event) }];
