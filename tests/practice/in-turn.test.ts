/** Slurred, then double, at the same speed: one line through its ways of tonguing, the missed one again. */
import { describe, expect, it } from 'vitest';
import { lineName } from '../../src/ladder/line.ts';
import { climbNow, tempoNow } from '../../src/practice/line/line-state.ts';
import { type Verdict, turning } from './turning.ts';

const IN_TURN =
  'keys: [C, F], articulations: [slurred, double], tempo: 80 -> 120, step: 4, up: 2, down: 1, drone: yes, ' +
  'rotate: {order: own, articulations: in turn}';

function begun(settings = IN_TURN) {
  const sat = turning(settings);
  sat.press('open', 'start-pause');
  return sat;
}

/** Each repetition: what was played, and how fast. */
function playedThrough(sat: ReturnType<typeof turning>, ...verdicts: readonly Verdict[]) {
  return verdicts.map((verdict) => {
    const was = `${sat.practice().line.articulation} ${tempoNow(sat.practice())}`;
    sat.repetition(verdict);
    return was;
  });
}

const ladderOf = (sat: ReturnType<typeof turning>, articulation: string, key = 'C') =>
  sat.stand().known.lines[lineName({ exercise: 'study', articulation, key })]?.bpm;

describe('ways of tonguing in turn', () => {
  it('come one after the other on the same line, each with its own ladder, at the same speed', () => {
    const sat = begun();
    expect(playedThrough(sat, 'clean', 'clean', 'clean', 'clean', 'clean')).toEqual([
      'slurred 80',
      'double 80',
      'slurred 80',
      'double 80',
      'slurred 84',
    ]);
    expect([ladderOf(sat, 'slurred'), ladderOf(sat, 'double')]).toEqual([84, 84]);
    expect(sat.practice().key).toBe('C');
  });

  it('bring the missed one back until it is not, slower; the other waits at that speed', () => {
    const sat = begun();
    expect(playedThrough(sat, 'clean', 'missed', 'missed', 'tense', 'clean', 'clean')).toEqual([
      'slurred 80',
      'double 80',
      'double 76',
      'double 72',
      'slurred 72',
      'double 72',
    ]);
    expect(sat.came().filter((name) => !name.startsWith('('))).toEqual([
      'C · slurred',
      'C · double',
      'C · slurred',
      'C · double',
    ]);
  });

  it('say at which speed they wait for the slowest', () => {
    const sat = begun();
    playedThrough(sat, 'clean', 'missed', 'clean');
    expect(sat.turn()).toBe('C · slurred');
    expect(sat.practice().remark).toBe('All of them at 76, where the slowest stands.');
  });

  it('keep the key until the block is over, and take the next one then', () => {
    const sat = begun();
    for (let n = 0; n < 6; n += 1) sat.repetition();
    expect(sat.practice().key).toBe('C');
    const next = sat.nextDay('2026-11-26');
    next.press('open');
    expect(next.turn()).toBe('F · slurred');
  });

  it('change the key with each round of them, where the file says so', () => {
    const sat = begun(IN_TURN.replace('order: own', 'order: own, change: repetition'));
    const turns = ['clean', 'clean', 'missed', 'clean', 'clean'].map((verdict) => {
      const was = sat.turn();
      sat.repetition(verdict as Verdict);
      return was;
    });
    expect(turns).toEqual(['C · slurred', 'C · double', 'F · slurred', 'F · slurred', 'F · double']);
  });

  it('sound over one drone all through', () => {
    const sat = begun();
    const before = sat.program.effects.length;
    playedThrough(sat, 'clean', 'missed', 'clean');
    expect(sat.practice().droneState).toBe('on');
    const drones = sat.program.effects
      .slice(before)
      .flatMap((one) => (one.type === 'sound' && one.command.ask === 'drone' ? [one.command.drone?.tonic] : []));
    expect(new Set(drones)).toEqual(new Set([sat.practice().drone.tonic]));
  });

  it('are as they were after each mark is taken back', () => {
    const sat = begun();
    const was = (['clean', 'clean', 'missed', 'clean'] as const).map((verdict) => {
      const { line } = sat.practice();
      const { bpm, cleanRun } = climbNow(sat.practice());
      sat.repetition(verdict);
      return { articulation: line.articulation, bpm, cleanRun };
    });
    for (const before of was.toReversed()) {
      sat.press('undo');
      const { bpm, cleanRun } = climbNow(sat.practice());
      expect({ articulation: sat.practice().line.articulation, bpm, cleanRun }).toEqual(before);
    }
  });
});
