/** Whatever the player does, a kill finds the same turn on the stand, and a round takes every cell once. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Verdict, turning } from './turning.ts';

const KEYS = 'keys: [C, F, Bb], articulations: [slurred, double]';

const ROTATIONS = [
  'from the hat',
  '{order: from the hat, repetitions: 2}',
  '{order: fourths, change: repetition}',
  '{order: drawn, change: repetition, fingerings: yes}',
  '{order: semitone pairs, change: repetition, ends: 1 key 2 times}',
  '{order: own, change: rung}',
  'fourths',
  '{articulations: in turn}',
  '{articulations: in turn, change: repetition}',
  '{articulations: in turn, change: rung}',
];

type Did = Verdict | 'key-before' | 'key-after' | 'articulation' | 'another-draw' | 'undo' | 'kill';

const did = fc.constantFrom<Did>(
  'clean',
  'clean',
  'clean',
  'tense',
  'missed',
  'key-before',
  'key-after',
  'articulation',
  'another-draw',
  'undo',
  'kill',
);

const isVerdict = (one: Did): one is Verdict => one === 'clean' || one === 'tense' || one === 'missed';

type Sat = ReturnType<typeof turning>;

function done(sat: Sat, one: Did): Sat {
  if (one === 'kill') {
    const due = sat.turn();
    const again = sat.killed();
    again.press('go-on');
    expect(again.turn()).toBe(due);
    again.press('start-pause');
    return again;
  }
  if (isVerdict(one)) sat.repetition(one);
  else sat.press(one);
  sat.pass(1);
  return sat;
}

/** Begun again where a pause or a taken-back mark left the line without a count-in. */
function counting(sat: Sat): Sat {
  const roles = sat.practice().chain.map(({ role }) => role);
  if (!roles.includes('count-in') || !roles.includes('repetition')) sat.press('start-pause', 'start-pause');
  return sat;
}

describe('whatever the player does', () => {
  it.each(ROTATIONS)('a sitting that is killed is gone on with at the same turn: %s', (rotate) => {
    fc.assert(
      fc.property(fc.array(did, { maxLength: 12 }), (all) => {
        let sat = turning(`${KEYS}, rotate: ${rotate}`);
        sat.press('open', 'start-pause');
        for (const one of all) sat = done(counting(sat), one);
        done(sat, 'kill');
      }),
      { numRuns: 12 },
    );
  });

  it.each(ROTATIONS.slice(0, 4))('every turn comes once before one comes again but by choice: %s', (rotate) => {
    const marks = fc.array(fc.constantFrom<Did>('clean', 'tense', 'missed', 'kill', 'undo'), { maxLength: 16 });
    fc.assert(
      fc.property(marks, (all) => {
        let sat = turning(`${KEYS}, rotate: ${rotate}`);
        sat.press('open', 'start-pause');
        for (const one of all) sat = done(counting(sat), one);
        const names = sat.came();
        const often = rotate.includes('repetitions: 2') ? 2 : 1;
        const first = names.slice(0, 6 * often);
        for (const name of first) expect(first.filter((other) => other === name).length).toBeLessThanOrEqual(often);
      }),
      { numRuns: 12 },
    );
  });
});
