/** The form of an exercise of one's own, key by key. */
import { describe, expect, it } from 'vitest';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import { BLANK_FORM } from '../../src/plan/own/own-form.ts';
import { formOf } from '../../src/plan/own/form-of-exercise.ts';
import type { FormView } from '../../src/practice/screens/own-form-keys.ts';
import { onEvent } from '../../src/practice/stand-events.ts';
import type { Action, Stand, StandEvent } from '../../src/practice/stand.ts';
import type { Effect } from '../../src/practice/step.ts';
import { firstStand } from './daily-sitting.ts';
import { EXERCISE } from './rehearsal.ts';

const MINE: Exercise = { ...EXERCISE, id: 'page', name: 'page', file: 'my-exercises', title: 'Page', spot: 'bar 9' };

function desk(change: (stand: Stand) => Stand = (stand) => stand) {
  const first = firstStand([]);
  const known = { ...first.known, exercises: [MINE, ...first.known.exercises], own: ['my-exercises'] };
  let stand = change({ ...first, known });
  const effects: Effect[] = [];
  const send = (event: StandEvent): void => {
    const step = onEvent(stand, event);
    stand = step.state;
    effects.push(...step.effects);
  };
  const press = (action: Action, key = '') => send({ type: 'do', action, key, now: 1 });
  return {
    stand: () => stand,
    view: () => stand.view as FormView,
    effects,
    send,
    press,
    type: (text: string) => [...text].forEach((letter) => press('type', letter === ' ' ? 'space' : letter)),
    keys: (...names: readonly string[]) => names.forEach((name) => press('type', name)),
    asked: () => effects.flatMap((effect) => (effect.type === 'own' ? [effect.asked] : [])),
    drafts: () => effects.flatMap((effect) => (effect.type === 'draft' ? [effect.draft] : [])),
  };
}

describe('a new exercise', () => {
  it('of title and tempo takes four keys beside the letters typed', () => {
    const { press, type, keys, asked } = desk();
    press('exercises');
    press('new-exercise');
    type('Blue folder, p. 12');
    keys('tab');
    type('60');
    keys('enter');
    const fields = { ...BLANK_FORM, title: 'Blue folder, p. 12', from: '60' };
    expect(asked()).toEqual([{ do: 'keep', draft: { fields, start: BLANK_FORM, of: null } }]);
  });

  it.each(['q', 'space', '?', 'e', 'ctrl+z'])('takes %s as a letter, or not at all', (key) => {
    const { press, keys, view } = desk();
    press('new-exercise');
    keys(key);
    expect(view().screen).toBe('form');
    expect(view().fields.title).toBe(key === 'space' ? ' ' : key.length === 1 ? key : '');
  });

  it('is left with the program by ctrl+c, and waits on the disk', () => {
    const { press, type, keys, stand, drafts } = desk();
    press('new-exercise');
    type('a');
    keys('ctrl+c');
    expect(stand().leaving).toBe(true);
    expect(drafts().at(-1)?.fields.title).toBe('a');
  });

  it('is mended where the cursor stands', () => {
    const { press, type, keys, view } = desk();
    press('new-exercise');
    type('Pge');
    keys('left', 'left');
    type('a');
    expect(view().fields.title).toBe('Page');
    keys('backspace', 'backspace', 'backspace');
    expect(view().fields.title).toBe('ge');
    keys('right', 'right', 'right');
    type('m');
    expect(view().fields.title).toBe('gem');
  });

  it('goes to the first mistake instead of the file, and says what would be right', () => {
    const { press, type, keys, view, stand, asked } = desk();
    press('new-exercise');
    keys('enter');
    expect(stand().answer?.sentence).toBe('Not kept yet: write a title, as you would call it yourself.');
    type('Page');
    keys('down');
    type('9999');
    keys('down', 'down', 'enter');
    expect(view().at).toBe('from');
    expect(stand().answer?.sentence).toMatch(/beats per minute from 10 to 400/);
    expect(asked()).toEqual([]);
  });

  it('chooses where one chooses, by arrow and by letter', () => {
    const { press, keys, view } = desk();
    press('new-exercise');
    keys('up', 'up', 'up', 'up');
    expect(view().at).toBe('work');
    keys('right');
    expect(view().fields.work).toBe('breaths');
    keys('c');
    expect(view().fields.work).toBe('clock');
    keys('space');
    expect(view().fields.work).toBe('');
  });

  it('takes ten thousand characters and says what is wrong with them', () => {
    const { press, type, keys, stand, view } = desk();
    press('new-exercise');
    type('x'.repeat(10_000));
    expect([...view().fields.title]).toHaveLength(10_000);
    keys('enter');
    expect(stand().answer?.sentence).toBe('Not kept yet: write at most 80 characters, not 10000.');
  });
});

describe('what was typed', () => {
  it('is on its way to the disk with every letter', () => {
    const { press, type, drafts } = desk();
    press('new-exercise');
    type('ab');
    expect(drafts().map((draft) => draft?.fields.title)).toEqual(['a', 'ab']);
  });

  it('is not left without a question; untouched, the form simply closes', () => {
    const { press, type, keys, stand, view } = desk();
    press('new-exercise');
    keys('escape');
    expect(stand().view.screen).toBe('today');
    press('new-exercise');
    type('a');
    keys('escape');
    expect([view().screen, view().asks]).toEqual(['form', true]);
    keys('x');
    expect(view().asks).toBe(true);
    keys('escape');
    expect([view().asks, view().fields.title]).toEqual([false, 'a']);
  });

  it('waits where it is left for later, and comes first with the next new one', () => {
    const { press, type, keys, stand, view, drafts } = desk();
    press('new-exercise');
    type('a');
    keys('escape', 'l');
    expect(stand().view.screen).toBe('today');
    expect(drafts()).not.toContain(null);
    press('new-exercise');
    expect(view().fields.title).toBe('a');
    expect(stand().answer?.sentence).toMatch(/not kept yet/);
  });

  it('goes only where the player says so', () => {
    const { press, type, keys, stand, view, drafts } = desk();
    press('new-exercise');
    type('a');
    keys('escape', 'd');
    expect([stand().view.screen, stand().draft, drafts().at(-1)]).toEqual(['today', null, null]);
    press('new-exercise');
    expect(view().fields).toEqual(BLANK_FORM);
  });

  it('is there again after a terminal that was closed', () => {
    const draft = { fields: { ...BLANK_FORM, title: 'Half a ti' }, start: BLANK_FORM, of: null };
    const { press, view } = desk((stand) => ({ ...stand, draft }));
    press('new-exercise');
    expect([view().fields.title, view().cursor]).toEqual(['Half a ti', 9]);
  });

  it('stays in the form when it could not be written, and is gone from the draft when it was', () => {
    const { press, type, keys, send, stand, view, drafts } = desk();
    press('exercises');
    press('new-exercise');
    type('Page');
    keys('enter');
    send({ type: 'own', answer: { sentence: 'The disk is full.', written: null } });
    expect([view().fields.title, stand().answer?.sentence]).toEqual(['Page', 'The disk is full.']);
    send({ type: 'own', answer: { sentence: 'Page: kept.', written: { file: 'my-exercises', name: 'page' } } });
    expect([stand().view.screen, stand().draft, drafts().at(-1)]).toEqual(['exercises', null, null]);
    expect(stand().known.exercises[stand().choice.row]?.name).toBe('page');
  });
});

describe('an exercise that is there', () => {
  it('of one’s own is changed with its place in its file', () => {
    const { press, type, keys, asked, view } = desk();
    press('exercises');
    press('change');
    expect(view().fields).toEqual(formOf(MINE));
    type(' 12');
    keys('enter');
    const start = formOf(MINE);
    const of = { file: 'my-exercises', name: 'page' };
    expect(asked()).toEqual([{ do: 'keep', draft: { fields: { ...start, title: 'Page 12' }, start, of } }]);
  });

  it('of the program’s is not changed but copied', () => {
    const { press, stand, view } = desk();
    press('exercises');
    press('down');
    press('change');
    expect(stand().view.screen).toBe('exercises');
    expect(stand().answer?.sentence).toMatch(/^This one came with the program\. y makes one of your own/);
    press('copy');
    expect(view().of).toBeNull();
    expect(view().fields.title).toMatch(/, my own$/);
  });

  it('is copied with its place, so that its file can say what the form does not show', () => {
    const { press, type, keys, stand, asked, drafts } = desk();
    press('exercises');
    press('down');
    press('copy');
    type('60');
    const { file, name } = stand().known.exercises[1] ?? MINE;
    expect(drafts().at(-1)?.copied).toEqual({ file, name });
    keys('enter');
    expect(asked()).toMatchObject([{ do: 'keep', draft: { of: null, copied: { file, name } } }]);
  });

  it('is retired and brought back', () => {
    const { press, asked, send, stand } = desk();
    press('exercises');
    press('retire');
    const [, ...others] = stand().known.exercises;
    send({ type: 'read', read: { ...stand().known, exercises: [...others, { ...MINE, retired: true }] } });
    expect(stand().known.exercises[stand().choice.row]?.id).toBe('page');
    press('retire');
    const place = { file: 'my-exercises', name: 'page' };
    expect(asked()).toEqual([
      { do: 'retire', place, isRetired: true },
      { do: 'retire', place, isRetired: false },
    ]);
  });
});

describe('files that were read again', () => {
  it('bring what is wrong with them to the notices, and take it away when it is mended', () => {
    const { send, stand } = desk((one) => ({ ...one, notices: ['Something else.'] }));
    send({ type: 'read', read: { ...stand().known, troubles: ['mine.yaml, line 1: wrong.'] } });
    expect(stand().notices).toEqual(['mine.yaml, line 1: wrong.', 'Something else.']);
    send({ type: 'read', read: { ...stand().known, troubles: [] } });
    expect(stand().notices).toEqual(['Something else.']);
  });
});
