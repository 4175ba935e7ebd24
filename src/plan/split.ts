/**
 * An exercise in one key split into the steps a teacher would set for multiple tonguing: slurred, single, the back
 * syllable alone, then double or triple slowly in long-short, evenly, and at speed. Each is a line of its own.
 */
import type { LadderRule } from '../ladder/rule.ts';
import { readArticulation } from '../music/articulation.ts';
import type { Bpm } from '../music/units.ts';
import type { Exercise, KeyName, Line } from './exercise.ts';

export const SPLIT_STEPS = ['slurred', 'single', 'back', 'long-short', 'even', 'speed'] as const;
export type SplitStep = (typeof SPLIT_STEPS)[number];

export interface StepLine {
  readonly step: SplitStep;
  readonly line: Line;
  readonly rule: LadderRule;
  /** Why it is there, one short sentence for the player. */
  readonly purpose: string;
}

/** Shares of the exercise's own start and target; common practice, no source. */
const SHARES: Readonly<Record<SplitStep, { readonly start: number; readonly target: number; readonly purpose: string }>> = {
  slurred: { start: 1, target: 1, purpose: 'Fingers and air first, without the tongue.' },
  single: { start: 1, target: 1, purpose: 'The same with one syllable, for the sound to match.' },
  back: { start: 0.5, target: 0.6, purpose: 'The back syllable alone, until it speaks like the front one.' },
  'long-short': { start: 0.5, target: 0.7, purpose: 'Slowly, the back syllable short and clear.' },
  even: { start: 0.6, target: 0.85, purpose: 'Evenly, still below the fastest single tongue.' },
  speed: { start: 0.75, target: 1, purpose: 'At speed, beginning where single still is easy.' },
};

type Multiple = 'double' | 'triple';

/** Triple where the exercise asks for it or its beat divides into threes, else double. */
export function multipleOf(exercise: Pick<Exercise, 'articulations' | 'notesPerBeat'>): Multiple {
  const kinds = exercise.articulations.map(readArticulation).map((one) => (typeof one === 'string' ? null : one.tonguing.kind));
  if (kinds.includes('triple')) return 'triple';
  return !kinds.includes('double') && exercise.notesPerBeat % 3 === 0 ? 'triple' : 'double';
}

function articulationOf(step: SplitStep, multiple: Multiple): string {
  if (step === 'slurred' || step === 'single') return step;
  if (step === 'back') return 'back syllable';
  return step === 'speed' ? multiple : `${multiple} ${step}`;
}

const share = (bpm: Bpm, by: number, rule: LadderRule): Bpm => {
  const exact = bpm * by;
  return rule.fractions ? exact : Math.max(1, Math.round(exact));
};

function ruleOf(rule: LadderRule, step: SplitStep): LadderRule {
  const { start, target } = SHARES[step];
  const [from, to] = [share(rule.start, start, rule), share(rule.target, target, rule)];
  return { ...rule, start: from, target: Math.max(to, from), floor: Math.min(rule.floor, from) };
}

/** The steps in the usual order, or in the player's; a step that the player leaves out is left out. */
export function split(exercise: Exercise, key: KeyName, order: readonly SplitStep[] = SPLIT_STEPS): readonly StepLine[] {
  const multiple = multipleOf(exercise);
  return order.map((step) => ({
    step,
    line: { exercise: exercise.id, articulation: articulationOf(step, multiple), key },
    rule: ruleOf(exercise.ladder, step),
    purpose: SHARES[step].purpose,
  }));
}

/** Reads 'slurred, back, speed'; a sentence where a step is unknown or comes twice. */
export function readSplitOrder(text: string): readonly SplitStep[] | string {
  const words = text.split(/[\s,]+/u).filter((word) => word !== '');
  const steps = words.filter((word): word is SplitStep => (SPLIT_STEPS as readonly string[]).includes(word));
  if (steps.length !== words.length || steps.length === 0 || new Set(steps).size !== steps.length) {
    return `'${text}' is no order of steps: write some or all of ${SPLIT_STEPS.join(', ')}, each once.`;
  }
  return steps;
}
