/** A day's list by hand: put together, played as it is, kept, taken up again on another day. */
import { describe, expect, it } from 'vitest';
import { BY_HAND, type DayEntry, type ListItem } from '../../src/diary/entry.ts';
import { listToday } from '../../src/practice/screens/today-keys.ts';
import type { ListView } from '../../src/practice/screens/day-list-keys.ts';
import { takesText } from '../../src/practice/screens/typing.ts';
import { KEYS, actionFor } from '../../src/ui/keys.ts';
import { current } from '../../src/plan/run/running-routine.ts';
import { routine, sit } from './daily-sitting.ts';

const desk = (records: readonly DayEntry[] = []) => {
  const all = sit(records);
  const type = (text: string) => [...text].forEach((letter) => all.key('type', letter === ' ' ? 'space' : letter));
  return {
    ...all,
    type,
    /** As the program hears them: put in order by commands, found and named by typing. */
    keys: (...names: readonly string[]) =>
      names.forEach((name) => {
        const { view } = all.stand();
        const action = view.screen === 'list' && !takesText(all.stand()) ? actionFor(KEYS, 'list', name, []) : 'type';
        if (action) all.key(action, name);
      }),
    view: () => all.stand().view as ListView,
    list: () => listToday(all.stand()).map(({ title, length }) => `${title} ${length / 60}`),
    said: () => all.stand().answer?.sentence,
    asked: () => all.program.effects.flatMap((effect) => (effect.type === 'own' ? [effect.asked] : [])),
  };
};

const FIVE = ['lip', 'five', 'thirds', 'triple', 'broken'];

function withFive(records: readonly DayEntry[] = []) {
  const all = desk(records);
  all.press('list');
  for (const title of FIVE) {
    all.type(title);
    all.keys('enter');
  }
  all.keys('tab');
  return all;
}

const TITLES = [
  'Lip flexibility, three partials 5',
  'Five-note study 5',
  'Thirds up and down 5',
  'Triple-tongued run 5',
  'Broken triads in seven 5',
];

const item = (exercise: string | null, title: string, minutes: number): ListItem => ({
  exercise,
  title,
  length: minutes * 60,
});

let n = 0;
const stamped = (day: string, entry: object): DayEntry =>
  ({
    v: 1,
    id: `018bcfe5-0000-7000-8000-${String((n += 1)).padStart(12, '0')}`,
    at: `${day}T10:00:00Z`,
    day,
    ...entry,
  }) as DayEntry;

describe('a list by hand', () => {
  it('of five things takes at most fifteen keys, and each gets five minutes', () => {
    const all = desk();
    let pressed = 0;
    const key = (name: string) => {
      pressed += 1;
      all.keys(name);
    };
    all.press('list');
    pressed += 1;
    for (const letter of ['l', 'f', 't', 's', 'o']) {
      key(letter);
      key('enter');
    }
    key('tab');
    key('enter');
    expect(pressed).toBeLessThanOrEqual(15);
    expect(all.list()).toHaveLength(5);
    expect(all.list().every((one) => one.endsWith(' 5'))).toBe(true);
    expect(all.stand().sitting?.run.items).toHaveLength(5);
  });

  it('is found by typing, put in order, given more time and less, and taken out of', () => {
    const all = withFive();
    expect(all.list()).toEqual(TITLES);
    all.keys(']', '[');
    expect(all.list()).toEqual(TITLES);
    all.keys('up', 'up', '[', '+', 'right', 'left', '-', '-');
    expect(all.list()[2]).toBe('Triple-tongued run 4');
    expect(all.list()[3]).toBe('Thirds up and down 5');
    all.keys('x');
    expect(all.list()).toHaveLength(4);
    all.keys('u');
    expect(all.list()[2]).toBe('Triple-tongued run 4');
  });

  it('is on the disk with every key', () => {
    const all = withFive();
    const lists = all.journal.entries.filter(({ kind }) => kind === 'list');
    expect(lists).toHaveLength(5);
    const again = desk(all.journal.entries.filter((one): one is DayEntry => one.kind === 'list'));
    expect(again.list()).toEqual(TITLES);
  });

  it('that could not be kept is not shown, and it is said', () => {
    const all = desk();
    all.program.disk('full');
    all.press('list');
    all.keys('enter');
    expect(all.list()).toEqual([]);
    expect(all.said()).toMatch(/disk is full/);
  });

  it('has no gap at its ends: nothing moves above the first or below the last', () => {
    const all = withFive();
    all.keys('[', 'up', ']', 'down');
    expect(all.view().row).toBe(0);
    expect(all.list()).toEqual(TITLES);
    for (let k = 0; k < 300; k += 1) all.keys('-');
    expect(all.list()[0]).toMatch(/ 1$/);
    for (let k = 0; k < 300; k += 1) all.keys('+');
    expect(all.list()[0]).toMatch(/ 240$/);
    all.keys('x', 'x', 'x', 'x', 'x', 'x');
    expect([all.list(), all.view().row]).toEqual([[], 0]);
  });
});

describe('a list on Today', () => {
  it('is played as it is: in its order, for its minutes, whatever minutes there are', () => {
    const all = withFive();
    all.keys('escape');
    expect(all.stand().day.plan?.items.map(({ title, minutes }) => `${title} ${minutes}`)).toEqual(TITLES);
    all.press('less-time', 'less-time', 'less-time', 'less-time', 'order');
    expect(all.stand().day.plan?.items.map(({ title, minutes }) => `${title} ${minutes}`)).toEqual(TITLES);
    all.press('open');
    expect(all.stand().sitting?.run.routine).toBe(BY_HAND);
    expect(all.practice()?.exercise.id).toBe('lip-bends');
  });

  it('comes round with the routines', () => {
    const all = withFive();
    all.keys('escape');
    const routines = all.stand().known.routines.length;
    const seen = Array.from({ length: routines + 1 }, () => {
      all.press('routine');
      return all.stand().day.plan?.routine;
    });
    expect(seen).toEqual([...all.stand().known.routines.map(({ id }) => id), BY_HAND]);
  });

  it('goes on after a lesson where it was left; what is done is not played again', () => {
    const all = withFive();
    all.keys('enter');
    all.press('start-pause');
    all.pass(301);
    all.press('next-block', 'start-pause');
    all.pass(100);
    all.press('back');
    expect(all.screen()).toBe('today');
    const shown = all.stand().day.plan?.items.map(({ minutes, reason }) => `${Math.round(minutes * 60)} ${reason}`);
    expect(shown?.[0]).toMatch(/^300 done today, 5:0/);
    expect(shown?.[1]).toMatch(/^\d+ begun today, 1:4\d played$/);
    all.press('go-on');
    expect(all.item()?.title).toBe('Five-note study');
    expect(all.item()?.played).toBeGreaterThan(95);
    all.press('back', 'open');
    expect(all.stand().sitting?.run.items[0]?.title).toBe('Lip flexibility, three partials');
    all.press('back', 'down', 'open');
    expect(all.stand().sitting?.run.items.map(({ title }) => title)).toHaveLength(4);
  });
});

describe('something more while a sitting runs', () => {
  it('comes at the end of it, is in the day’s list, and is there after an interruption', () => {
    const all = withFive();
    all.keys('enter');
    all.press('start-pause', 'add');
    expect(all.screen()).toBe('list');
    all.type('one note');
    all.keys('enter');
    expect(all.screen()).toBe('practice');
    expect(all.said()).toBe('One-note tonguing, 5 minutes: it comes at the end.');
    expect(all.stand().sitting?.run.phase).toBe('paused');
    expect(all.stand().sitting?.run.items.at(-1)?.title).toBe('One-note tonguing');
    expect(all.list().at(-1)).toBe('One-note tonguing 5');
    all.press('start-pause');
    all.pass(20);
    all.press('back', 'go-on');
    expect(all.stand().sitting?.run.items.map(({ title }) => title)).toHaveLength(6);
  });

  it('of a routine goes with that sitting only, and lies ready when it was over', () => {
    const all = desk();
    all.press('open');
    const count = all.stand().sitting?.run.items.length ?? 0;
    for (let k = 0; k < count; k += 1) all.press('next-block');
    expect(all.screen()).toBe('end');
    all.press('add');
    all.type('fanfare');
    all.keys('enter');
    const { run } = all.stand().sitting!;
    expect([current(run)?.title, run.phase, run.items.length]).toEqual([
      'Fanfare in the upper octave',
      'ready',
      count + 1,
    ]);
    expect(all.practice()?.exercise.id).toBe('high-fanfare');
    expect(all.list()).toEqual([]);
    all.press('start-pause');
    all.pass(30);
    all.press('back', 'go-on');
    expect(current(all.stand().sitting!.run)?.title).toBe('Fanfare in the upper octave');
  });

  it('is not put in where it is left with Esc, and the line is as it was', () => {
    const all = withFive();
    all.keys('enter');
    all.press('add');
    all.keys('escape');
    expect(all.screen()).toBe('practice');
    expect(all.stand().sitting?.run.items).toHaveLength(5);
  });
});

describe('another day’s list', () => {
  const monday = [stamped('2026-11-23', { kind: 'list', items: [item('thirds', 'Thirds', 7)] })];
  const tuesday = stamped('2026-11-24', {
    kind: 'plan',
    routine: routine.id,
    items: [
      { part: 'warm-up', block: 'long-tones', length: 240, before: 60, exercise: 'long-tones' },
      { part: 'warm-up', block: 'break', length: 300, before: 0, exercise: null },
      { part: 'on-the-stand', block: 'low-soft-notes-to-come-down', length: 180, before: 0, exercise: null },
      { part: 'gone', block: 'gone', length: 180, before: 0, exercise: 'no-longer-there' },
    ],
  });
  const lastWednesday = stamped('2026-11-18', { kind: 'list', items: [item('five-notes', 'Five', 9)] });

  it('is taken up as yesterday, from its sittings where there was no list, without the rests', () => {
    const all = desk([lastWednesday, ...monday, tuesday]);
    all.press('list');
    all.keys('tab', 'y');
    expect(all.list()).toEqual(['Long tones 5', 'Low soft notes to come down 3']);
    expect(all.said()).toBe('As on Tuesday, 2026-11-24.');
    all.keys('y');
    expect([all.list(), all.said()]).toEqual([['Thirds 7'], 'As on Monday, 2026-11-23.']);
    all.keys('y', 'y');
    expect(all.said()).toBe('There is nothing to take up from then.');
  });

  it('is taken up as a week ago', () => {
    const all = desk([lastWednesday, tuesday]);
    all.press('list');
    all.keys('tab', 't');
    expect([all.list(), all.said()]).toEqual([['Five 9'], 'As on Wednesday, 2026-11-18.']);
    const none = desk([tuesday]);
    none.press('list');
    none.keys('tab', 't');
    expect(none.said()).toBe('There is nothing to take up from then.');
  });

  it('is had back as it was with u', () => {
    const all = withFive([tuesday]);
    all.keys('y');
    expect(all.list()).not.toEqual(TITLES);
    all.keys('u');
    expect(all.list()).toEqual(TITLES);
  });

  it('plays what has no exercise by the clock alone', () => {
    const all = desk([tuesday]);
    all.press('list');
    all.keys('tab', 'y', 'down', 'enter');
    expect([all.screen(), all.item()?.title]).toEqual(['block', 'Low soft notes to come down']);
    all.press('play-block');
    all.pass(60);
    all.press('back', 'go-on');
    expect(all.item()?.title).toBe('Low soft notes to come down');
  });
});

describe('the list', () => {
  it('takes what Today proposes, to be changed', () => {
    const all = desk();
    const proposed = all
      .stand()
      .day.plan?.items.filter(({ block }) => block !== 'break')
      .map(({ title }) => title);
    all.press('list');
    all.keys('tab', 'p');
    expect(all.list().map((one) => one.replace(/ [\d.]+$/, ''))).toEqual(proposed);
  });

  it('is kept as a routine under a name', () => {
    const all = withFive();
    all.keys('r');
    all.type('Band days');
    all.keys('enter');
    expect(all.asked()).toEqual([
      { do: 'routine', title: 'Band days', instrument: 'cornet', items: listToday(all.stand()) },
    ]);
    expect(all.view().doing).toBe('order');
  });

  it('needs a name, and something in it', () => {
    const all = desk();
    all.press('list');
    all.keys('tab', 'r');
    expect(all.said()).toBe('There is nothing in the list yet.');
    const five = withFive();
    five.keys('r', 'enter');
    expect(five.said()).toBe('Write a name for it.');
  });

  it('makes an exercise of one’s own of what nothing is called, and has it when it is kept', () => {
    const all = desk();
    all.press('list');
    all.type('Blue folder');
    all.keys('enter');
    const { view } = all.stand();
    expect(view).toMatchObject({ screen: 'form', fields: { title: 'Blue folder' }, at: 'from' });
    const mine = { ...routine.exercises[0]!, id: 'blue', name: 'blue', file: 'my-exercises', title: 'Blue folder' };
    const { known } = all.stand();
    all.program.send({ type: 'read', read: { ...known, exercises: [mine, ...known.exercises] } });
    const written = { file: 'my-exercises', name: 'blue' };
    all.program.send({ type: 'own', answer: { sentence: 'Kept.', written } });
    expect(all.screen()).toBe('list');
    expect(all.list()).toEqual(['Blue folder 5']);
  });
});
