/** Inside a block the player chooses by one key; the clock runs on, and nothing chosen is lost. */
import { describe, expect, it } from 'vitest';
import { type Verdict, turning } from './turning.ts';
import { hear } from './keeping.ts';

const KEYS = 'keys: [C, F, Bb, Eb], articulations: [slurred, double]';

/** Begun, and its first repetition counted in. */
function begun(rotate: string, settings = KEYS) {
  const sat = turning(`${settings}, rotate: ${rotate}`);
  sat.press('open', 'start-pause');
  return sat;
}

const inOrder = '{order: fourths, change: repetition}';

describe('the next key by a key', () => {
  it.each(['fourths', '{order: fourths, change: rung}', inOrder])('follows the order of %s, to and fro', (rotate) => {
    const { press, turn } = begun(rotate);
    expect(turn()).toBe('C · slurred');
    press('key-after');
    expect(turn()).toBe('F · slurred');
    press('key-before', 'key-before');
    expect(turn()).toBe('Eb · slurred');
    press('articulation');
    expect(turn()).toBe('Eb · double');
    press('articulation', 'key-after');
    expect(turn()).toBe('C · slurred');
  });

  it('keeps the clock of the block, the click and the drone', () => {
    const { press, pass, item, program, practice, stand } = begun('fourths');
    hear(program, 'count-in');
    hear(program, 'repetition');
    press('drone');
    pass(20);
    const before = program.effects.length;
    press('key-after');
    pass(5);
    expect(item()?.played).toBe(25);
    expect(stand().sitting?.run.phase).toBe('playing');
    expect(practice()).toMatchObject({ phase: 'playing', droneState: 'on' });
    const commands = program.effects.slice(before).flatMap((one) => (one.type === 'sound' ? [one.command] : []));
    expect(commands.map(({ ask }) => ask)).toEqual(['then', 'drone']);
    expect(commands[1]).toMatchObject({ drone: { tonic: practice().drone.tonic } });
    const [then] = commands;
    // What was broken off is breathed after, and then the new key is counted in.
    expect(then?.ask === 'then' && then.spans.map(({ role }) => role)).toEqual([
      'breath',
      'count-in',
      'repetition',
      'breath',
      'wait',
    ]);
  });

  it('leaves what was not marked unmarked, and says so', () => {
    const { press, program, practice, stand, journal } = begun('fourths');
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(program, role);
    press('key-after');
    expect(practice().due).toBeNull();
    expect(stand().answer?.sentence).toBe('The last repetition was not marked.');
    expect(journal.entries.some(({ kind }) => kind === 'mark')).toBe(false);
  });

  it('waits for a mark that was given early: it is never lost', () => {
    const { press, program, turn, stand, journal } = begun('fourths');
    for (const role of ['count-in', 'repetition'] as const) hear(program, role);
    press('clean', 'key-after');
    expect(turn()).toBe('C · slurred');
    expect(stand().answer?.sentence).toMatch(/counts at the end/);
    hear(program, 'breath');
    press('key-after');
    expect(turn()).toBe('F · slurred');
    expect(journal.entries.filter(({ kind }) => kind === 'mark')).toHaveLength(1);
  });

  it('says it where there is no other', () => {
    const { press, turn, stand } = begun('own', 'keys: [C], articulations: [slurred]');
    for (const [action, words] of [
      ['key-after', /one key/],
      ['articulation', /one way of tonguing/],
      ['another-draw', /one key and one way/],
    ] as const) {
      press(action);
      expect(stand().answer?.sentence).toMatch(words);
      expect(turn()).toBe('C · slurred');
    }
  });

  it('moves the key of a block without a ladder, its drone with it', () => {
    const sat = turning('keys: [C, F, Bb], work: clock, drone: yes, rotate: fourths');
    sat.press('open', 'play-block');
    sat.pass(30);
    const tone = () => {
      const { view } = sat.stand();
      if (view.screen !== 'block' || !view.tone) throw new Error('no key');
      return view.tone;
    };
    sat.press('key-after');
    expect(tone().line.key).toBe('F');
    expect(sat.program.effects.at(-1)).toMatchObject({
      command: { ask: 'drone', drone: { tonic: tone().drone.tonic } },
    });
    expect(sat.item()?.played).toBe(30);
    expect(sat.came()).toEqual(['C · slurred', 'F · slurred']);
    sat.press('another-draw');
    expect(tone().line.key).toBe('Bb');
    const again = sat.killed();
    again.press('go-on');
    expect(again.stand().view).toMatchObject({ tone: { line: { key: 'Bb' } } });
  });
});

describe('what comes next', () => {
  it('goes on from the turn that was chosen', () => {
    const { press, turn, repetition } = begun(inOrder);
    press('key-after', 'key-after');
    repetition();
    expect(turn()).toBe('Eb · slurred');
    repetition();
    expect(turn()).toBe('C · slurred');
  });

  it('another draw leaves the cell for later in the round', () => {
    const { press, turn, repetition, came } = begun('from the hat');
    const first = turn();
    press('another-draw');
    const second = turn();
    expect(second).not.toBe(first);
    press('another-draw');
    expect([first, second]).not.toContain(turn());
    for (let n = 0; n < 8; n += 1) repetition();
    expect(new Set(came().filter((name) => !name.startsWith('('))).size).toBe(8);
  });

  it('another draw brings every cell before one comes again', () => {
    const { press, turn } = begun('from the hat');
    const names = [turn()];
    for (let n = 1; n < 8; n += 1) {
      press('another-draw');
      names.push(turn());
    }
    expect(new Set(names).size).toBe(8);
  });
});

describe('a cell of the grid', () => {
  it('is chosen while everything sounds on, and played at once', () => {
    const { press, turn, stand, practice, program, item, pass } = begun('from the hat');
    hear(program, 'count-in');
    pass(3);
    press('grid');
    expect(stand().view.screen).toBe('grid');
    hear(program, 'repetition');
    expect(practice().phase).toBe('playing');
    pass(3);
    const before = turn();
    press('key-after', 'down', 'open');
    expect(stand().view.screen).toBe('practice');
    expect(turn()).not.toBe(before);
    expect(turn()?.split(' · ')[1]).not.toBe(before?.split(' · ')[1]);
    expect(item()?.played).toBe(6);
  });

  it('stays to be chosen while a mark that was given before brings the next turn', () => {
    const { press, turn, stand, program } = begun('from the hat');
    hear(program, 'count-in');
    hear(program, 'repetition');
    const before = turn();
    press('clean', 'grid', 'key-after');
    hear(program, 'breath');
    expect(turn()).not.toBe(before);
    expect(stand().view.screen).toBe('grid');
    press('back');
    expect(stand().view.screen).toBe('practice');
  });

  it('is left as it was', () => {
    const { press, turn, stand, came } = begun('from the hat');
    const before = turn();
    press('grid', 'key-after', 'back');
    expect([stand().view.screen, turn()]).toEqual(['practice', before]);
    press('grid', 'key-after', 'grid');
    expect([stand().view.screen, turn()]).toEqual(['practice', before]);
    expect(came()).toEqual([]);
  });

  it('is reached by one pedal, cell after cell', () => {
    const { press, stand } = begun('from the hat');
    press('grid');
    const places = new Set<string>();
    for (let n = 0; n < 8; n += 1) {
      press('cell-after');
      const { view } = stand();
      if (view.screen === 'grid') places.add(`${view.at.key} ${view.at.articulation}`);
    }
    expect(places.size).toBe(8);
  });
});

describe('a sitting that was killed', () => {
  it.each(['fourths', inOrder, 'from the hat', '{order: own, change: rung}', '{articulations: in turn}'])(
    'comes back to the chosen turn, played or not: %s',
    (rotate) => {
      const sat = begun(rotate);
      sat.repetition();
      sat.pass(10);
      sat.press('key-after', 'articulation');
      const chosen = sat.turn();
      const again = sat.killed();
      again.press('go-on');
      expect(again.turn()).toBe(chosen);
      again.press('start-pause');
      again.repetition('tense');
      expect(again.came()).toContain(chosen);
    },
  );

  it.each([inOrder, 'from the hat', '{order: drawn, change: repetition, repetitions: 2}', '{articulations: in turn}'])(
    'comes back to the turn that was due: %s',
    (rotate) => {
      let sat = begun(rotate);
      for (let n = 0; n < 9; n += 1) {
        sat.repetition(n % 4 === 3 ? 'missed' : 'clean');
        sat.pass(3);
        const due = sat.turn();
        sat = sat.killed();
        sat.press('go-on');
        expect(sat.turn()).toBe(due);
        sat.press('start-pause');
      }
    },
  );

  it('counts nothing as played that was only chosen, when another day begins', () => {
    const sat = begun('from the hat');
    for (let n = 0; n < 3; n += 1) sat.repetition();
    sat.press('another-draw');
    const next = sat.nextDay('2026-11-26');
    next.press('open', 'start-pause');
    for (let n = 0; n < 5; n += 1) next.repetition();
    const names = next.came().filter((name) => !name.startsWith('('));
    expect(names).toHaveLength(8);
    expect(new Set(names).size).toBe(8);
  });
});

describe('undo', () => {
  it.each([
    inOrder,
    'from the hat',
    '{order: fourths, change: repetition, repetitions: 2}',
    '{articulations: in turn}',
  ])('takes the turn back with its mark, as far as the first: %s', (rotate) => {
    const verdicts: readonly Verdict[] = ['clean', 'missed', 'clean', 'tense', 'missed', 'clean'];
    const { press, turn, repetition, came } = begun(rotate);
    const before = verdicts.map((verdict) => {
      const was = { turn: turn(), came: came() };
      repetition(verdict);
      return was;
    });
    for (const was of before.toReversed()) {
      press('undo');
      expect({ turn: turn(), came: came() }).toEqual(was);
    }
    press('clean');
    expect(came().filter((name) => !name.startsWith('('))).toEqual([before[0]?.turn]);
  });

  it('goes back over a turn that was chosen', () => {
    const { press, turn, repetition, came } = begun(inOrder);
    repetition();
    press('key-after', 'key-after');
    expect(came()).toEqual(['C · slurred', '(Bb · slurred)', '(Eb · slurred)']);
    press('undo');
    expect(turn()).toBe('C · slurred');
    expect(came()).toEqual([]);
    press('clean');
    expect([turn(), came()]).toEqual(['F · slurred', ['C · slurred']]);
  });
});
