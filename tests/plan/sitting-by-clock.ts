/** A sitting by a clock that only moves when told to, with everything that was written down. */
import { type BlockEntry, type DayEntry } from '../../src/diary/entry.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { restoreRun } from '../../src/plan/run/interrupted-sitting.ts';
import { type RunItem, itemsOfPlan } from '../../src/plan/run/run-items.ts';
import { runView } from '../../src/plan/run/run-view.ts';
import {
  type Run,
  type RunAction,
  type RunEffect,
  beginRun,
  current,
  runOn,
} from '../../src/plan/run/running-routine.ts';
import { playedBefore } from '../../src/plan/today/played-before.ts';
import { todaysPlan } from '../../src/plan/today/todays-plan.ts';

export const DAY = '2026-10-25';
const TEXT = `
routine: Test
breaks: 2 after 12
exercises: {tones: {kind: sound, breaths: 4}, scales: {}, thirds: {}, tongue: {kind: articulation}}
parts:
  - {part: Warm-up, warm up: yes, blocks: [{play: tones, minutes: 3, at end: go on}]}
  - {part: Fingers, blocks: [scales: 4, {play: thirds, minutes: 5}, {do: Stretch, minutes: 2}]}
  - {part: Tongue, blocks: [tongue: 6]}
`;
const parsed = parseRoutine(TEXT, 'test.yaml', () => ({ trouble: 'none' }));
if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
export const routine: Routine = parsed.routine;

/** A run with its clock and everything that was written down, as the program around it would keep them. */
export class Sitting {
  run: Run;
  now = 1000;
  readonly records: DayEntry[];
  readonly effects: RunEffect[] = [];

  constructor(records: readonly DayEntry[] = [], run: Run | null = null, minutes = 40) {
    this.records = [...records];
    if (run !== null) {
      this.run = run;
      this.now = run.clock;
      return;
    }
    const known = playedBefore(DAY, records, []);
    const step = beginRun(
      routine.id,
      itemsOfPlan(todaysPlan(routine, { minutes, before: known, seed: 1 }), known),
      this.now,
    );
    this.run = step.run;
    this.take(step.effects);
  }

  private take(effects: readonly RunEffect[]): void {
    this.effects.push(...effects);
    for (const effect of effects)
      if (effect.do === 'record') this.records.push({ ...effect.record, at: `${DAY}T10:00:00Z`, day: DAY } as DayEntry);
  }

  do(action: RunAction): this {
    const step = runOn(this.run, { type: 'do', action, now: this.now });
    this.run = step.run;
    this.take(step.effects);
    return this;
  }

  wait(seconds: number, tick = 1): this {
    for (let passed = 0; passed < seconds; passed += tick) {
      this.now += Math.min(tick, seconds - passed);
      const step = runOn(this.run, { type: 'tick', now: this.now });
      this.run = step.run;
      this.take(step.effects);
    }
    return this;
  }

  /** The present item as it stands. */
  get item(): RunItem {
    return current(this.run) as RunItem;
  }

  /** What the journal last heard of a block. */
  lastOf(block: string): BlockEntry | undefined {
    return this.records.findLast((one): one is BlockEntry => one.kind === 'block' && one.block === block);
  }

  get title(): string {
    return runView(this.run, routine).title;
  }

  count(what: RunEffect['do']): number {
    return this.effects.filter((effect) => effect.do === what).length;
  }

  blockEvents(block: string): readonly string[] {
    return this.records.flatMap((one) => (one.kind === 'block' && one.block === block ? [one.event] : []));
  }
}

export const restored = (records: readonly DayEntry[]): Run | null => restoreRun(routine, DAY, records, 0);

/** The store keeps only the newest record of a block on one day. */
export const asStored = (records: readonly DayEntry[]): readonly DayEntry[] =>
  records.filter(
    (one, i) =>
      one.kind !== 'block' ||
      !records
        .slice(i + 1)
        .some((later) => later.kind === 'block' && later.block === one.block && later.part === one.part),
  );
