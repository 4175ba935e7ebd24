/** The settings as they are, and what the ladder's rule comes to. */
import type { PlayerCurve } from '../../ladder/settling/player-curve.ts';
import type { LadderRule } from '../../ladder/rule/ladder-rule.ts';
import { ruleText } from '../../ladder/settling/settling-text.ts';
import { settlingSentence } from '../../ladder/settling/settling-tempo.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import type { Stand } from '../../practice/stand.ts';
import type { DrawScreen } from './screen.ts';
import { BLANK, fit, line, seg, toHeight, wrapped } from '../paint.ts';

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

export const settingsScreen: DrawScreen<'settings'> = (stand, { columns, rows, foot }) => {
  const exercise = onLadder(stand);
  const rule = exercise
    ? [
        line(seg(` The rule of ${exercise.title}`, 'strong')),
        ...wrapped(ruleText(exercise.ladder), 'plain', columns),
        ...wrapped(settles(exercise.ladder), 'now', columns),
      ]
    : [];
  const said = [
    line(seg(' Settings', 'strong')),
    BLANK,
    line(seg(' Click  ', 'strong'), seg(level(stand.dials.click), 'now'), seg('   ↓ softer, ↑ louder', 'dim')),
    line(seg(' Drone  ', 'strong'), seg(level(stand.dials.drone), 'now'), seg('   ← softer, → louder', 'dim')),
    line(seg(` ${HEADPHONES}`, 'dim')),
    BLANK,
    line(
      seg(' Sound delay: ', 'plain'),
      seg(`${stand.dials.tapOffset} ms`, 'strong'),
      seg("   'standside lag' measures it.", 'dim'),
    ),
    BLANK,
    ...rule,
    line(seg(' The rule is the exercise’s own: its routine file sets every number.', 'dim')),
    BLANK,
    ...wrapped(
      'Keys, instrument, tuning and sound device are set in settings.yaml in the data folder.',
      'dim',
      columns,
    ),
  ];
  return toHeight([...toHeight(said, rows - 1), foot], rows).map((painted) => fit(painted, columns));
};
