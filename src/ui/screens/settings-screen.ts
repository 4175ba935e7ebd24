/** The settings, changed where they stand, and what the ladder's rule comes to. */
import type { PlayerCurve } from '../../ladder/settling/player-curve.ts';
import type { LadderRule } from '../../ladder/rule/ladder-rule.ts';
import { ruleText } from '../../ladder/settling/settling-text.ts';
import { settlingSentence } from '../../ladder/settling/settling-tempo.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import type { Stand } from '../../practice/stand.ts';
import { harmless } from '../../common/harmless-text.ts';
import { settingsAt } from '../../practice/screens/settings-keys.ts';
import { SETTING_ROWS } from '../../practice/screens/settings-rows.ts';
import type { DrawScreen, On } from './screen.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, wrapped } from '../paint.ts';

/**
 * The rule is looked at with an ordinary player (as `standside ladder` takes one) whose limit lies half way to the
 * target.
 */
const curveFor = ({ start, target }: LadderRule): PlayerCurve => ({
  threshold: Math.sqrt(start * target),
  slope: 12,
  lapse: 0.02,
  tense: 1 / 3,
});

const HEADPHONES = 'Set headphones low before you start: click and instrument add up in the ear.';

/** The chain is worked out once for each rule. */
const sentences = new WeakMap<LadderRule, string>();

function settles(rule: LadderRule): string {
  const known = sentences.get(rule) ?? settlingSentence(rule, curveFor(rule));
  sentences.set(rule, known);
  return known;
}

const level = (share: number): string =>
  `${'█'.repeat(Math.round(share * 20))}${'░'.repeat(20 - Math.round(share * 20))} ${Math.round(share * 100)} %`;

/** The exercise chosen last, or the first that climbs. */
function onLadder({ known: { exercises }, choice }: Stand): Exercise | null {
  const chosen = exercises[choice.row];
  return chosen && hasLadder(chosen) ? chosen : (exercises.find(hasLadder) ?? null);
}

/** The rows in sight, the one under the finger among them. */
function settingLines(stand: On<'settings'>, room: number): readonly PaintedLine[] {
  const at = settingsAt(stand.view);
  const from = Math.max(0, Math.min(at.row - Math.floor(room / 2), SETTING_ROWS.length - room));
  return SETTING_ROWS.slice(from, from + room).map(({ label, words }, k) => {
    const isHere = from + k === at.row;
    const typed = isHere && at.typed !== null ? `${harmless(at.typed)}▏` : words(stand);
    const said = isHere && at.learns ? 'press it now' : harmless(typed);
    return line(
      seg(` ${isHere ? '▶' : ' '} ${label.padEnd(15)}`, isHere ? 'now' : 'dim'),
      seg(said, isHere ? 'now' : 'plain'),
    );
  });
}

export const settingsScreen: DrawScreen<'settings'> = (stand, { columns, rows, foot }) => {
  const exercise = onLadder(stand);
  const rule = exercise
    ? [
        line(seg(` The rule of ${exercise.title}`, 'strong')),
        ...wrapped(ruleText(exercise.ladder), 'plain', columns),
        ...wrapped(settles(exercise.ladder), 'now', columns),
      ]
    : [];
  const at = settingsAt(stand.view);
  const levels = [
    line(seg(' Click  ', 'strong'), seg(level(stand.dials.click), 'now'), seg('   [ softer, ] louder', 'dim')),
    line(seg(' Drone  ', 'strong'), seg(level(stand.dials.drone), 'now'), seg('   ( softer, ) louder', 'dim')),
    line(seg(` ${HEADPHONES}`, 'dim')),
  ];
  const about = rule.slice(0, Math.max(0, rows - 12));
  const room = Math.max(3, rows - 8 - about.length);
  const answer =
    stand.answer?.sentence ?? (at.learns ? 'Press the pedal now, or any key; Esc leaves it as it is.' : '');
  const said = [
    line(seg(' Settings', 'strong'), seg('  Each change counts at once and is kept.', 'dim')),
    ...levels,
    BLANK,
    ...toHeight(settingLines(stand, room), room),
    ...about,
    line(seg(` ${answer}`, 'strong')),
  ];
  return toHeight([...toHeight(said, rows - 1), foot], rows).map((painted) => fit(painted, columns));
};
