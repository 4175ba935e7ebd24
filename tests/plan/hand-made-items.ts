/** Items of a plan and of a running routine, written by hand: whatever a test does not say is plain. */
import type { RunItem } from '../../src/plan/run/run-items.ts';
import type { PlanItem } from '../../src/plan/today/plan-items.ts';

const PLAIN: Omit<PlanItem, 'block' | 'title' | 'minutes' | 'exercise'> = {
  part: 'fingers',
  kind: 'technique',
  turn: null,
  reason: '',
  warmUp: false,
  highLoad: false,
  material: null,
  cues: [],
  atEnd: 'wait',
  breaths: null,
  keys: null,
  articulations: null,
};

/** It plays the exercise of its own name. */
export const planItem = (block: string, minutes: number, change: Partial<PlanItem> = {}): PlanItem => ({
  ...PLAIN,
  block,
  title: block,
  minutes,
  exercise: block,
  ...change,
});

/** Five minutes, nothing of them played. */
export const runItem = (block: string, change: Partial<RunItem> = {}): RunItem => ({
  ...PLAIN,
  block,
  title: block,
  exercise: null,
  length: 300,
  played: 0,
  before: 0,
  state: 'open',
  ...change,
});
