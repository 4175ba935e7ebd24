/** The algebra of a running routine's steps: the next run, and what is to be done outside, as data. */
import type { BlockEvent } from '../../diary/entry.ts';
import { type RunItem, blockRecord } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import type { Run, RunEffect, RunStep } from './run.ts';

export const step = (run: Run, ...effects: readonly RunEffect[]): RunStep => ({ run, effects });

/** Effects of this step first, then those of what follows from its run. */
export function andThen({ run, effects }: RunStep, more: (run: Run) => RunStep): RunStep {
  const next = more(run);
  return { run: next.run, effects: [...effects, ...next.effects] };
}

export const withItem = (run: Run, change: Partial<RunItem>, at = run.at): Run => ({
  ...run,
  items: run.items.map((item, i) => (i === at ? { ...item, ...change } : item)),
});

/** What the journal is told of an item's block; of a rest nothing. */
export const toJournal = (run: Run, item: RunItem, event: BlockEvent): readonly RunEffect[] =>
  isRest(item) ? [] : [{ do: 'record', record: blockRecord(run.routine, run.items, item, event) }];
