/** What is wrong with a ladder rule, said in sentences; for routine files, settings and the command line alike. */
import type { Bpm } from '../../common/units.ts';
import { HIGHEST_AIM, LOWEST_AIM } from './aim.ts';
import type { LadderRule } from './ladder-rule.ts';
import { rungsOf } from './rungs.ts';

/** Slower than this a beat lasts more than six seconds; faster than the highest, no click is followed. */
export const LOWEST_BPM: Bpm = 10;
export const HIGHEST_BPM: Bpm = 400;

/** Whether a tempo can be played at all; an estimate leaves out a mark whose tempo cannot. */
export const isPlayable = (bpm: number): boolean => bpm >= LOWEST_BPM && bpm <= HIGHEST_BPM;

type Field = 'cleanUp' | 'missedDown' | 'rungsUp' | 'rungsDown';

const COUNTS: readonly { readonly field: Field; readonly of: string; readonly most: number }[] = [
  { field: 'cleanUp', of: 'The number of clean repetitions before going up', most: 20 },
  { field: 'missedDown', of: 'The number of missed repetitions before going down', most: 20 },
  { field: 'rungsUp', of: 'The number of rungs to go up', most: 10 },
  { field: 'rungsDown', of: 'The number of rungs to go down', most: 10 },
];

const between = (n: number, low: number, high: number): boolean => n >= low && n <= high;

const checkCounts = (rule: LadderRule): readonly string[] =>
  COUNTS.filter(({ field, most }) => !Number.isInteger(rule[field]) || !between(rule[field], 1, most)).map(
    ({ field, of, most }) => `${of} is ${rule[field]}; it must be a whole number from 1 to ${most}.`,
  );

const checkTense = ({ tenseDown }: LadderRule): readonly string[] =>
  tenseDown === null || (Number.isInteger(tenseDown) && between(tenseDown, 1, 20))
    ? []
    : [`The number of tense repetitions before going down is ${tenseDown}; it must be a whole number from 1 to 20.`];

/** Digits that a share in hundredths has: 0.8 is 80. */
const inHundredths = (share: number): number => Math.round(share * 1000) / 10;

const checkAim = ({ aim }: LadderRule): readonly string[] =>
  aim === null || between(aim, LOWEST_AIM, HIGHEST_AIM)
    ? []
    : [
        `The share of clean repetitions aimed at is ${inHundredths(aim)} %; it must be from ` +
          `${inHundredths(LOWEST_AIM)} % to ${inHundredths(HIGHEST_AIM)} %.`,
      ];

function checkStep({ step, fractions }: LadderRule): readonly string[] {
  if (step.by === 'ratio' && !between(step.percent, 0.1, 50)) {
    return [`The step between rungs is ${step.percent} %; it must be from 0.1 % to 50 %, and 3 % is usual.`];
  }
  const least = fractions ? 0.1 : 1;
  if (step.by === 'beats' && !between(step.bpm, least, 100)) {
    return [`The step between rungs is ${step.bpm} beats per minute; it must be from ${least} to 100.`];
  }
  return [];
}

function checkEnds({ floor, top }: LadderRule): readonly string[] {
  const wrong = [
    { name: 'lowest', bpm: floor },
    { name: 'highest', bpm: top },
  ]
    .filter(({ bpm }) => !isPlayable(bpm))
    .map(
      ({ name, bpm }) =>
        `The ladder's ${name} tempo is ${bpm}; it must be from ${LOWEST_BPM} to ${HIGHEST_BPM} beats per minute.`,
    );
  if (wrong.length > 0) return wrong;
  return floor < top
    ? []
    : [`The ladder's lowest tempo is ${floor} and its highest ${top}; the highest must be above the lowest.`];
}

const checkInside = ({ floor, top, start, target }: LadderRule): readonly string[] =>
  [
    { name: 'start', bpm: start },
    { name: 'target', bpm: target },
  ]
    .filter(({ bpm }) => !between(bpm, floor, top))
    .map(({ name, bpm }) => `The ladder's ${name} is ${bpm}; it must lie on the ladder, from ${floor} to ${top}.`);

const checkSlow = ({ order, slowShare }: LadderRule): readonly string[] =>
  order === 'climb' || between(slowShare, 0.2, 0.95)
    ? []
    : [`The slow repetitions are played at ${slowShare} of the tempo; it must be from 0.2 to 0.95.`];

const checkRungs = (rule: LadderRule): readonly string[] =>
  rungsOf(rule).length > 1
    ? []
    : [`The ladder from ${rule.floor} to ${rule.top} has one rung only; choose a smaller step or a higher top.`];

/**
 * Every sentence says what is wrong, its value, and what would be right; none for a sound rule.
 * `checkRule({ ...DEFAULT_RULE, cleanUp: 0 })` has one sentence.
 */
export function checkRule(rule: LadderRule): readonly string[] {
  const ends = checkEnds(rule);
  const moves = [...checkAim(rule), ...checkCounts(rule), ...checkTense(rule)];
  const first = [...moves, ...checkStep(rule), ...ends, ...checkSlow(rule)];
  const inside = ends.length === 0 ? checkInside(rule) : [];
  // Rungs are only counted on a ladder that can be built.
  return first.length + inside.length > 0 ? [...first, ...inside] : checkRungs(rule);
}
