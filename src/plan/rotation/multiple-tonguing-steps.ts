/**
 * An exercise in one key split into the steps a teacher would set for multiple tonguing: slurred, single, the back
 * syllable alone, then double or triple slowly in long-short, evenly, and at speed. Each is a line of its own.
 */
import { type ArticulationName, type KeyName, type Line } from '../../ladder/line.ts';
import type { LadderRule } from '../../ladder/rule/ladder-rule.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import type { Bpm } from '../../common/units.ts';
import type { Exercise } from '../routine/exercise.ts';

const SPLIT_STEPS = ['slurred', 'single', 'back', 'long-short', 'even', 'speed'] as const;
type SplitStep = (typeof SPLIT_STEPS)[number];

export interface TonguingStep {
  readonly line: Line;
  readonly rule: LadderRule;
  /** Why it is there, one short sentence for the player. */
  readonly purpose: string;
}

/** Shares of the exercise's own start and target; common practice, no source. */
const SHARES: Readonly<
  Record<SplitStep, { readonly start: number; readonly target: number; readonly purpose: string }>
> = {
  slurred: { start: 1, target: 1, purpose: 'Fingers and air first, without the tongue.' },
  single: { start: 1, target: 1, purpose: 'The same with one syllable, for the sound to match.' },
  back: { start: 0.5, target: 0.6, purpose: 'The back syllable alone, until it speaks like the front one.' },
  'long-short': { start: 0.5, target: 0.7, purpose: 'Slowly, the back syllable short and clear.' },
  even: { start: 0.6, target: 0.85, purpose: 'Evenly, still below the fastest single tongue.' },
  speed: { start: 0.75, target: 1, purpose: 'At speed, beginning where single still is easy.' },
};

type Multiple = 'double' | 'triple';

/** Triple where the exercise asks for it or its beat divides into threes, else double. */
export function multipleTonguingOf(exercise: Pick<Exercise, 'articulations' | 'notesPerBeat'>): Multiple {
  const kinds = exercise.articulations
    .map(readArticulation)
    .map((one) => (typeof one === 'string' ? null : one.tonguing.kind));
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

/** Names of the steps as articulations, in the usual order: what `articulations: split` in a routine stands for. */
export const tonguingStepNames = (multiple: Multiple): readonly ArticulationName[] =>
  SPLIT_STEPS.map((step) => articulationOf(step, multiple));

const isMultiple = (kind: string): boolean => kind === 'double' || kind === 'triple' || kind === 'running';

/**
 * Which step an articulation is; plain double or triple is one only beside the slower ones. Null for everything else.
 */
function stepOf(name: ArticulationName, among: readonly ArticulationName[]): SplitStep | null {
  const read = readArticulation(name);
  if (typeof read === 'string') return null;
  const { kind } = read.tonguing;
  if (kind === 'back') return 'back';
  if (read.rhythm === 'long-short') return 'long-short';
  if (read.name.endsWith(' even')) return 'even';
  const slower = among.some(
    (other) => other !== name && ['back', 'long-short', 'even'].includes(stepOf(other, []) ?? ''),
  );
  return isMultiple(kind) && slower ? 'speed' : null;
}

/** The ladder of one of the exercise's lines: its own, or for a step of a split the share of it that suits the step. */
export function lineRule(
  exercise: Pick<Exercise, 'ladder' | 'articulations'>,
  articulation: ArticulationName,
): LadderRule {
  const step = stepOf(articulation, exercise.articulations);
  return step === null ? exercise.ladder : ruleOf(exercise.ladder, step);
}

/** Why a line of a split is there, one short sentence; null for every other line. */
export function purposeOfStep(
  exercise: Pick<Exercise, 'articulations'>,
  articulation: ArticulationName,
): string | null {
  const step = stepOf(articulation, exercise.articulations);
  return step === null ? null : SHARES[step].purpose;
}

/** The steps in the usual order, or those the exercise names, in its order, if it is split already. */
export function tonguingSteps(exercise: Exercise, key: KeyName): readonly TonguingStep[] {
  const own = exercise.articulations.some((name) => stepOf(name, exercise.articulations) !== null);
  const names = own ? exercise.articulations : tonguingStepNames(multipleTonguingOf(exercise));
  return names.map((articulation) => ({
    line: { exercise: exercise.id, articulation, key },
    rule: lineRule({ ladder: exercise.ladder, articulations: names }, articulation),
    purpose:
      purposeOfStep({ articulations: names }, articulation) ??
      (articulation === 'slurred' || articulation === 'single' ? SHARES[articulation].purpose : ''),
  }));
}
