/** From an exercise as written to its ladder, with every default filled in. */
import { DEFAULT_RULE, type LadderRule } from '../../ladder/rule/ladder-rule.ts';
import { checkRule } from '../../ladder/rule/rule-check.ts';
import type { WrittenExercise } from './routine-schema.ts';
import * as read from './value-words.ts';
import { BOUNDS } from './written-limits.ts';

/**
 * Takes the name of a setting and what would be right, or a whole sentence about its text from a column (from 1) on.
 */
export type ReportSetting = (setting: string, right: string, sentence?: { readonly at: number }) => void;

export type WrittenSettings = Omit<WrittenExercise, 'title' | 'pattern' | 'retired'>;

const OF_THE_RULE = ['rule', 'up', 'down', 'tense down', 'rungs up', 'rungs down'] as const;

/** Whether it says itself what moves its ladder; what the player has set for all others then leaves it alone. */
export const saysItsRule = (written: WrittenSettings): boolean =>
  OF_THE_RULE.some((setting) => written[setting] !== undefined);

const tenseOf = (written: WrittenSettings['tense down']): number | null =>
  written === 'never' ? null : (written ?? DEFAULT_RULE.tenseDown);

function endsOf(written: WrittenSettings): { floor: number; top: number; start: number; target: number } {
  const { start, target } = read.readTempo(written.tempo ?? `${DEFAULT_RULE.start} -> ${DEFAULT_RULE.target}`);
  const aim = target ?? start;
  const usual = { floor: Math.min(DEFAULT_RULE.floor, start), top: Math.max(DEFAULT_RULE.top, aim) };
  return { ...usual, ...(written.ladder === undefined ? {} : read.readLadderEnds(written.ladder)), start, target: aim };
}

const withinTen400 = (bpm: number): boolean => bpm >= BOUNDS.tempo[0] && bpm <= BOUNDS.tempo[1];

/** The ladder's own ends reach as far as the tempos, so a wrong tempo is one trouble and not two. */
function checkEnds(
  { floor, top, start, target }: ReturnType<typeof endsOf>,
  isLadderSaid: boolean,
  report: ReportSetting,
): void {
  const isTempoWrong = ![start, target].every(withinTen400);
  if (isTempoWrong) report('tempo', 'tempos from 10 to 400 beats per minute');
  if (isTempoWrong && !isLadderSaid) return;
  if (!isTempoWrong && target < start) report('tempo', 'a start that is not above the target');
  if (![floor, top].every(withinTen400) || floor >= top) {
    report('ladder', 'a lower and then a higher tempo, both from 10 to 400');
  } else if (!isTempoWrong && (start < floor || target > top))
    report('tempo', `tempos on the ladder, from ${floor} to ${top}`);
}

/** The ladder of an exercise with every default filled in; what cannot be is complained of. */
export function ladderOfWritten(written: WrittenSettings, outer: ReportSetting): LadderRule {
  let isReported = false;
  const report: ReportSetting = (...said) => {
    isReported = true;
    outer(...said);
  };
  const ends = endsOf(written);
  checkEnds(ends, written.ladder !== undefined, report);
  const step = written.step === undefined ? DEFAULT_RULE.step : read.readStep(written.step);
  if (step.by === 'ratio' && !(step.percent >= 0.1 && step.percent <= 50)) {
    report('step', 'a percentage from 0.1% to 50%');
  }
  const slow = written.slow === undefined ? DEFAULT_RULE.slowShare : read.readPercent(written.slow) / 100;
  if (!(slow >= 0.2 && slow <= 0.95)) report('slow', 'a percentage from 20% to 95%');
  const rule: LadderRule = {
    cleanUp: written.up ?? DEFAULT_RULE.cleanUp,
    missedDown: written.down ?? DEFAULT_RULE.missedDown,
    tenseDown: tenseOf(written['tense down']),
    rungsUp: written['rungs up'] ?? DEFAULT_RULE.rungsUp,
    rungsDown: written['rungs down'] ?? DEFAULT_RULE.rungsDown,
    aim: written.rule === undefined ? DEFAULT_RULE.aim : read.readAim(written.rule),
    step,
    ...ends,
    fractions: read.isYes(written.fractions),
    order: written.order ?? DEFAULT_RULE.order,
    slowShare: slow,
  };
  // What each setting may be was checked above; this is what they may not be together.
  if (!isReported)
    checkRule(rule).forEach((sentence) => report('step' in written ? 'step' : 'ladder', sentence, { at: 1 }));
  return rule;
}
