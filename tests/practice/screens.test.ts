/** The keys of the lists and of Today, without a sitting. */
import { describe, expect, it } from 'vitest';
import { lineChosen, choiceOf } from '../../src/practice/screens/line-choice.ts';
import { messageNow } from '../../src/practice/messages.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { firstStand, routine, sit } from './daily-sitting.ts';

const emptied = (change: Partial<Stand['known']>): Stand => {
  const first = firstStand([]);
  return { ...first, known: { ...first.known, ...change } };
};

describe('the list of all exercises', () => {
  const listed = () => {
    const sat = sit();
    sat.press('exercises');
    const chosen = () => lineChosen(sat.stand().choice, sat.stand().known.exercises[sat.stand().choice.row]!);
    return { ...sat, chosen };
  };

  it('goes up and down, round both ends', () => {
    const { press, chosen } = listed();
    const ids = routine.exercises.map(({ id }) => id);
    expect(chosen().exercise).toBe(ids[0]);
    press('up');
    expect(chosen().exercise).toBe(ids.at(-1));
    press('down', 'down');
    expect(chosen().exercise).toBe(ids[1]);
  });

  it('keeps a key and an articulation for each exercise, and goes round them', () => {
    const { press, chosen, stand } = listed();
    const at = routine.exercises.findIndex(({ id }) => id === 'five-notes');
    for (let k = 0; k < at; k += 1) press('down');
    const { keys, articulations } = routine.exercises[at]!;
    press('key-before');
    expect(chosen().key).toBe(keys.at(-1));
    press('key-after', 'key-after');
    expect(chosen().key).toBe(keys[1]);
    press('articulation');
    expect(chosen().articulation).toBe(articulations[1]);
    press('articulation', 'articulation');
    expect(chosen().articulation).toBe(articulations[0]);
    press('articulation', 'down', 'up');
    expect(chosen()).toEqual({ exercise: 'five-notes', key: keys[1], articulation: articulations[1] });
    expect(choiceOf(chosen(), stand().known.exercises)).toEqual({
      row: at,
      keyOf: { 'five-notes': 1 },
      articulationOf: { 'five-notes': 1 },
    });
  });

  it('puts the line under the finger on the stand, silent, and comes back to Today with silence', () => {
    const { press, practice, screen, chosen, commands } = listed();
    press('down', 'down', 'open');
    expect(screen()).toBe('practice');
    expect(practice()).toMatchObject({ line: chosen(), phase: 'ready' });
    expect(commands()).toEqual([]);
    press('start-pause', 'back');
    expect(screen()).toBe('today');
    expect(commands().slice(-2)).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
  });

  it('of a player without exercises has nothing to open or to turn', () => {
    const { press, screen, stand } = sit([], emptied({ exercises: [], routines: [] }));
    press('exercises', 'up', 'down', 'key-after', 'articulation', 'open');
    expect(screen()).toBe('exercises');
    expect(stand().choice).toEqual({ row: 0, keyOf: {}, articulationOf: {} });
  });

  it('knows a line that is asked for by name; an unknown one leaves the first under the finger', () => {
    const all = routine.exercises;
    expect(choiceOf({ exercise: 'nothing', key: 'C', articulation: 'single' }, all)).toEqual({
      row: 0,
      keyOf: {},
      articulationOf: {},
    });
    const odd = choiceOf({ exercise: 'thirds', key: 'H', articulation: 'hummed' }, all);
    expect(lineChosen(odd, all[odd.row]!)).toEqual({
      exercise: 'thirds',
      key: all[odd.row]!.keys[0],
      articulation: all[odd.row]!.articulations[0],
    });
  });
});

describe('Today', () => {
  it('gives and takes five minutes, between the least and the most there may be', () => {
    const { press, stand } = sit();
    const minutes = () => stand().day.minutes;
    press('more-time');
    expect(minutes()).toBe(30);
    expect(stand().day.plan?.items.reduce((sum, item) => sum + item.minutes, 0)).toBeLessThanOrEqual(30);
    for (let k = 0; k < 80; k += 1) press('less-time');
    const least = minutes();
    expect(least).toBeGreaterThan(0);
    press('less-time');
    expect(minutes()).toBe(least);
    for (let k = 0; k < 200; k += 1) press('more-time');
    const most = minutes();
    press('more-time');
    expect(minutes()).toBe(most);
  });

  it('takes figures typed soon after each other as one number, three at most; a naught alone as none', () => {
    const { key, jump, stand } = sit();
    key('type-time', '0');
    expect(stand().day.minutes).toBe(25);
    for (const figure of ['0', '4', '0']) key('type-time', figure);
    expect(stand().day).toMatchObject({ minutes: 40, typed: '40' });
    jump(1.5);
    key('type-time', '0');
    expect(stand().day.typed).toBe('400');
    key('type-time', '3');
    expect(stand().day).toMatchObject({ typed: '3' });
    jump(1.6);
    key('type-time', '5');
    expect(stand().day.typed).toBe('5');
  });

  it('a move of the finger or of the minutes ends the number that is being typed', () => {
    for (const action of ['down', 'more-time'] as const) {
      const { key, press, stand } = sit();
      key('type-time', '3');
      press(action);
      key('type-time', '5');
      expect(stand().day.typed).toBe('5');
    }
  });

  it('moves the finger round the items, and begins with the one under it', () => {
    const { press, stand, item } = sit();
    const items = stand().day.plan!.items;
    press('up');
    expect(stand().day.row).toBe(items.length - 1);
    press('down', 'down');
    expect(stand().day.row).toBe(1);
    press('open');
    expect(item()?.block).toBe(items[1]!.block);
    expect(stand().sitting?.run.items).toHaveLength(items.length - 1);
  });

  it('keeps the finger on an item when there are fewer', () => {
    const { press, stand } = sit();
    press('up');
    for (let k = 0; k < 10; k += 1) press('less-time');
    expect(stand().day.row).toBe(stand().day.plan!.items.length - 1);
  });

  it('has its blocks one after the other or in turns, by one key', () => {
    const { press, stand } = sit();
    const usual = stand().day.plan!.order;
    press('order');
    expect(stand().day.plan!.order).not.toBe(usual);
    press('order');
    expect(stand().day.plan!.order).toBe(usual);
  });

  it('goes round the routines, with the finger and the order at their beginning', () => {
    const other = { ...routine, id: 'other', title: 'Other' };
    const { press, stand } = sit([], emptied({ routines: [routine, other] }));
    const usual = stand().day.plan!.order;
    press('order', 'down', 'routine');
    expect(stand().day).toMatchObject({ routine: 1, row: 0, order: null, plan: { routine: 'other', order: usual } });
    press('routine');
    expect(stand().day.routine).toBe(0);
  });

  it('without a routine has no plan, and its keys do nothing', () => {
    const { press, stand, screen } = sit([], emptied({ routines: [] }));
    press('routine', 'up', 'down', 'order', 'open', 'go-on');
    expect(stand().day).toMatchObject({ plan: null, row: 0, routine: 0 });
    expect(screen()).toBe('today');
    expect(stand().sitting).toBeNull();
  });

  it('is fitted anew when a new day begins, and the day is the player’s', () => {
    const { stand, program } = sit();
    program.send({ type: 'day', today: '2026-11-26' });
    expect(stand().known.today).toBe('2026-11-26');
    expect(stand().day.plan).not.toBeNull();
  });
});

describe('keys that mean the same everywhere', () => {
  it('help opens and closes the page; another key only closes it', () => {
    const { press, stand, screen } = sit();
    press('help');
    expect(stand().help).toBe(true);
    press('exercises');
    expect(stand().help).toBe(false);
    expect(screen()).toBe('today');
    press('help', 'help');
    expect(stand().help).toBe(false);
  });

  it('leaving stops all that sounds, help open or not', () => {
    const { press, stand, commands } = sit();
    press('help', 'leave');
    expect(stand().leaving).toBe(true);
    expect(commands()).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
  });

  it('the weeks are gone through row by row, not above their beginning, and opened where they were left', () => {
    const { press, stand } = sit();
    press('weeks', 'up');
    expect(stand().view).toMatchObject({ screen: 'weeks', page: 'lines', row: 0 });
    press('coverage', 'key-after', 'key-after', 'key-before');
    expect(stand().view).toMatchObject({ screen: 'weeks', page: 'coverage' });
    press('back', 'weeks');
    expect(stand().view).toMatchObject({ screen: 'weeks', page: 'coverage' });
    press('back', 'settings');
    expect(stand().view).toEqual({ screen: 'settings' });
  });

  it('leaving in the middle of a note keeps what was typed', () => {
    const { press, key, stand, records, screen } = sit();
    press('open');
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('play-block', 'next-block');
    press('note');
    for (const letter of 'even') key('note', letter);
    key('leave', 'ctrl+c');
    expect(stand().leaving).toBe(true);
    expect(records().at(-1)).toMatchObject({ kind: 'note', text: 'even' });
  });

  it('settings go back to the list they were opened from, its finger where it was', () => {
    const { press, stand, screen } = sit();
    press('exercises', 'down', 'down', 'settings', 'back');
    expect(screen()).toBe('exercises');
    expect(stand().choice.row).toBe(2);
    press('back', 'settings', 'back');
    expect(screen()).toBe('today');
  });

  it('help, weeks and exercises leave Today as it was: minutes, order, row', () => {
    const { press, key, stand } = sit();
    key('type-time', '4');
    key('type-time', '0');
    press('order', 'down', 'down');
    const { day } = stand();
    press('weeks', 'down', 'back', 'exercises', 'down', 'back', 'help', 'help', 'settings', 'back');
    expect(stand().day).toMatchObject({ minutes: day.minutes, order: day.order, row: day.row, routine: day.routine });
  });

  it('the levels go in twentieths, from nothing to all, sound at once, are kept and said', () => {
    const { press, stand, program } = sit();
    press('settings', 'click-louder');
    expect(stand().dials).toMatchObject({ click: 0.55, drone: 0.3 });
    expect(program.effects).toEqual([
      { type: 'sound', command: { ask: 'volume', click: 0.55, drone: 0.3 } },
      { type: 'set', settings: { volume: { click: 0.55, drone: 0.3 } } },
    ]);
    expect(messageNow(stand())?.sentence).toBe('Click 55 %, drone 30 %.');
    press('click-softer', 'click-softer', 'drone-louder');
    expect(stand().dials).toMatchObject({ click: 0.45, drone: 0.35 });
    for (let k = 0; k < 25; k += 1) press('click-louder', 'drone-softer');
    expect(stand().dials).toMatchObject({ click: 1, drone: 0 });
  });
});

describe('the list of ways round a wall', () => {
  const onWays = () => {
    const sat = sit();
    sat.press('exercises', 'down', 'down', 'down', 'open', 'way');
    const ways = () => {
      const { view } = sat.stand();
      if (view.screen !== 'ways') throw new Error('no list of ways');
      return view.ways;
    };
    return { ...sat, ways };
  };

  it('stands at the ladder’s own tempo where no wall is seen, and goes round both ends', () => {
    const { press, ways, practice } = onWays();
    expect(ways().bpm).toBe(practice()?.opened.bpm);
    expect(ways().offers.length).toBeGreaterThan(2);
    press('up');
    expect(ways().row).toBe(ways().offers.length - 1);
    press('down', 'down');
    expect(ways().row).toBe(1);
  });

  it('opens where it was left', () => {
    const { press, ways } = onWays();
    press('down', 'down');
    const { row } = ways();
    press('back', 'way');
    expect(ways().row).toBe(row);
  });

  it('is left to the line as it was; a way is taken, and left by the same key', () => {
    const { press, ways, practice, screen } = onWays();
    press('back');
    expect(screen()).toBe('practice');
    expect(practice()?.way).toBeNull();
    press('way', 'down');
    const { id } = ways().offers[1]!;
    press('open');
    expect(screen()).toBe('practice');
    expect(practice()?.way).toMatchObject({ way: { id }, wall: practice()?.opened.bpm, at: 0, done: 0 });
    press('way');
    expect(screen()).toBe('practice');
    expect(practice()?.way).toBeNull();
  });

  it('leaves out what needs a tongue on a slurred line, and what needs notes where none are written', () => {
    const ids = (exercise: string) => {
      const sat = sit();
      sat.press('exercises');
      const at = routine.exercises.findIndex(({ id }) => id === exercise);
      for (let k = 0; k < at; k += 1) sat.press('down');
      sat.press('open', 'way');
      const { view } = sat.stand();
      return view.screen === 'ways' ? view.ways.offers.map(({ id }) => id) : [];
    };
    expect(ids('lip-bends')).not.toContain('one-note');
    expect(ids('lip-bends')).toContain('from-front');
    expect(ids('one-note-tongue')).toContain('one-note');
    expect(ids('band-book')).not.toContain('from-front');
  });
});
