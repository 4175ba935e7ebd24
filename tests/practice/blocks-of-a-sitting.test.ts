/** Blocks of a sitting, one after the other: what lies on the stand, what is said, what is on the disk. */
import { hasLadder } from '../../src/plan/routine/exercise.ts';
import { describe, expect, it } from 'vitest';
import type { DayEntry } from '../../src/diary/entry.ts';
import type { RunItem } from '../../src/plan/run/run-items.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { exerciseNow, leftOpen, narrowedNow, routineNow } from '../../src/practice/sitting/sitting.ts';
import { type Stand, withRun } from '../../src/practice/stand.ts';
import { firstStand, routine, sit } from './daily-sitting.ts';
import { hear } from './keeping.ts';

type Sat = ReturnType<typeof sit>;

const toLine = ({ press, practice }: Sat): void => {
  while (!practice()) press('next-block');
};

const draws = (records: readonly DayEntry[]) => records.filter(({ kind }) => kind === 'draw');

/** Down the list of exercises to the first that has a ladder. */
const toLadder = ({ known }: Stand): readonly 'down'[] =>
  known.exercises.slice(0, known.exercises.findIndex(hasLadder)).map(() => 'down');

describe('a block', () => {
  it('of work on the body has neither key nor drone, and d does nothing there', () => {
    const { press, stand, commands } = sit();
    press('open');
    expect(exerciseNow(stand())?.id).toBe('easy-start');
    expect(stand().view).toEqual({ screen: 'block', tone: null });
    const { length } = commands();
    press('drone', 'play-block');
    expect(stand().view).toEqual({ screen: 'block', tone: null });
    expect(commands()).toHaveLength(length);
  });

  it('of long tones has its key, its notes and its drone; the key counts as played with the clock, not before', () => {
    const { press, stand, records, commands } = sit();
    press('open', 'next-block');
    const { view } = stand();
    if (view.screen !== 'block' || !view.tone) throw new Error('no key');
    expect(view.tone).toMatchObject({ line: { exercise: 'long-tones', articulation: 'slurred' }, droneState: 'waits' });
    expect(view.tone.drill?.notes.length).toBeGreaterThan(4);
    expect(draws(records())).toEqual([]);
    press('play-block');
    expect(draws(records())).toMatchObject([{ pool: 'long-tones', item: `${view.tone.line.key} · slurred` }]);
    expect(commands().at(-1)).toEqual({ ask: 'drone', drone: view.tone.drone });
    press('play-block', 'play-block');
    expect(draws(records())).toHaveLength(1);
  });

  it('that is come back to has the key that it had', () => {
    const sat = sit();
    const { press, pass, practice, records, item } = sat;
    press('open');
    toLine(sat);
    const { line } = practice()!;
    press('start-pause');
    pass(20);
    press('next-block', 'block-before');
    expect(item()?.played).toBe(20);
    expect(practice()?.line).toEqual(line);
    press('start-pause');
    const ofBlock = draws(records()).filter((one) => one.kind === 'draw' && one.pool === line.exercise);
    expect(ofBlock).toHaveLength(1);
  });

  it('rings once when its time is up, and lies still until the player goes on', () => {
    const { press, pass, commands, stand, item } = sit();
    press('open', 'play-block');
    const { length } = item()!;
    pass(length - 1);
    expect(commands().filter(({ ask }) => ask === 'chime')).toEqual([]);
    pass(30);
    expect(commands().filter(({ ask }) => ask === 'chime')).toHaveLength(1);
    expect(stand().sitting?.run.phase).toBe('over');
    expect(item()?.played).toBe(length);
  });

  it('narrows its exercise to each key once where its time is short', () => {
    const { press, stand } = sit();
    expect(narrowedNow(stand())).toEqual({ keys: null, articulations: null, once: false });
    press('open');
    expect(narrowedNow(stand())).toEqual({ keys: null, articulations: null, once: true });
    press('next-block');
    expect(narrowedNow(stand()).once).toBe(false);
  });

  it('ended by the computer’s sleep is silent: the drone waits with the clock', () => {
    const { press, jump, pass, commands, stand } = sit();
    press('open', 'next-block', 'play-block');
    jump(3600);
    pass(1);
    expect(stand().sitting?.run.phase).toBe('paused');
    expect(stand().view).toMatchObject({ tone: { droneState: 'waits' } });
    expect(commands().slice(-2)).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
  });
});

describe('a sitting', () => {
  it('knows its routine, and outside one there is none', () => {
    const { press, stand } = sit();
    expect(routineNow(stand())).toBeNull();
    expect(exerciseNow(stand())).toBeNull();
    press('open');
    expect(routineNow(stand())?.id).toBe(routine.id);
  });

  it('is not there to be gone on with where nothing was left open: the key does nothing', () => {
    const { press, stand, commands } = sit();
    expect(leftOpen(stand())).toBeNull();
    press('go-on');
    expect(stand().sitting).toBeNull();
    expect(commands()).toEqual([]);
  });

  it('gone on with is silent at first, and writes no second plan', () => {
    const first = sit();
    first.press('open', 'play-block');
    first.pass(70);
    const again = sit(first.records());
    again.press('go-on');
    expect(again.screen()).toBe('block');
    expect(again.commands()).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
    expect(again.records().filter(({ kind }) => kind === 'plan')).toHaveLength(1);
  });

  it('by a clock forty times as fast takes ticks forty seconds apart for waking, not for sleep', () => {
    const quick = sit([], { ...firstStand([]), clockRate: 40 });
    quick.press('open', 'play-block');
    quick.jump(39);
    quick.pass(1);
    expect(quick.item()?.played).toBe(40);
    const usual = sit();
    usual.press('open', 'play-block');
    usual.jump(39);
    usual.pass(1);
    expect(usual.item()?.played).toBe(0);
  });

  it('begun anew counts its own marks only', () => {
    const sat = sit();
    sat.press('open');
    toLine(sat);
    sat.press('start-pause');
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(sat.program, role);
    sat.press('tense');
    expect(sat.stand().marks).toMatchObject([{ mark: 'tense' }]);
    sat.press('back', 'open');
    expect(sat.stand().marks).toEqual([]);
  });

  it('its keys do nothing outside it', () => {
    const { press, stand, records } = sit();
    press(
      'exercises',
      ...toLadder(stand()),
      'open',
      'next-block',
      'skip-block',
      'note',
      'tension',
      'pause-block',
      'pause-block',
    );
    expect(stand().view.screen).toBe('practice');
    expect(records()).toEqual([]);
  });

  it('a reading that nothing asked for is not kept', () => {
    const { press, key, records } = sit();
    press('open');
    key('tension', '3');
    expect(records().filter(({ kind }) => kind === 'tension')).toEqual([]);
  });
});

describe('a note', () => {
  const atEnd = () => {
    const sat = sit();
    sat.press('open');
    for (let k = 0; k < 40 && sat.screen() !== 'end'; k += 1) sat.press('next-block');
    return sat;
  };
  const note = ({ stand }: Sat) =>
    stand().view.screen === 'end' ? (stand().view as { note: unknown }).note : undefined;

  it('is dropped by Esc, and one of spaces is none', () => {
    const sat = atEnd();
    sat.press('note');
    expect(note(sat)).toBe('');
    for (const each of ['h', 'i', 'escape']) sat.key('note', each);
    expect(note(sat)).toBeNull();
    sat.press('note');
    for (const each of ['space', 'space', 'enter']) sat.key('note', each);
    expect(note(sat)).toBeNull();
    expect(sat.records().filter(({ kind }) => kind === 'note')).toEqual([]);
  });

  it('takes letters, signs and whole characters, no names of keys, and is kept without spaces around it', () => {
    const sat = atEnd();
    sat.press('note');
    for (const each of ['space', 'é', '𝄞', 'x', 'backspace', 'up', 'f1', '!', 'space']) sat.key('note', each);
    expect(note(sat)).toBe(' é𝄞! ');
    for (let k = 0; k < 2; k += 1) sat.key('note', 'backspace');
    sat.key('note', 'backspace');
    expect(note(sat)).toBe(' é');
    sat.key('note', 'enter');
    expect(sat.records().at(-1)).toMatchObject({ kind: 'note', text: 'é' });
    sat.press('undo');
    expect(sat.records().filter(({ kind }) => kind === 'note')).toEqual([]);
    expect(messageNow(sat.stand())?.sentence).toBe('The note is taken back.');
  });

  it('is left by the key that always leaves', () => {
    const sat = atEnd();
    sat.press('note');
    sat.key('leave', 'ctrl+c');
    expect(sat.stand().leaving).toBe(true);
  });
});

/** The items of a running sitting, as if so many seconds had been played of each. */
const withItems = (stand: Stand, at: number, change: (item: RunItem, i: number) => Partial<RunItem>): Stand => {
  const { run } = stand.sitting!;
  return withRun(stand, { ...run, at, items: run.items.map((item, i) => ({ ...item, ...change(item, i) })) });
};

describe('a rest', () => {
  const begun = (): Stand => {
    const { press, stand } = sit();
    press('open');
    return stand();
  };

  // Values: plan/ease/rest-due says where they come from.
  it('is due after 25 minutes of playing since the last one; work on the body is no playing', () => {
    const stand = begun();
    expect(easeNow(withItems(stand, 2, (_, i) => ({ played: i === 1 || i === 2 ? 749 : 0 })))).toBeNull();
    expect(easeNow(withItems(stand, 2, (_, i) => ({ played: i === 1 || i === 2 ? 750 : 0 })))).toMatch(/^25:00 of/);
    expect(easeNow(withItems(stand, 2, (_, i) => ({ played: i === 0 ? 3000 : 60 })))).toBeNull();
    // What is to come does not count.
    expect(easeNow(withItems(stand, 1, (_, i) => ({ played: i === 3 ? 3000 : 60 })))).toBeNull();
  });

  it('that was taken ends what was played before it; while it is taken nothing is said', () => {
    const stand = begun();
    const rested = (at: number, rest: number): Stand =>
      withItems(stand, at, (_, i) => (i === 2 ? { block: 'break', kind: 'rest', played: rest } : { played: 1600 }));
    expect(easeNow(rested(3, 300))).toMatch(/^26:40 of playing/);
    expect(easeNow(rested(3, 0))).toMatch(/without a rest/);
    expect(easeNow(rested(2, 10))).toBeNull();
  });

  it('is due sooner after demanding playing', () => {
    const stand = begun();
    const hard = (highLoad: boolean) => withItems(stand, 2, (_, i) => ({ played: i === 2 ? 200 : 0, highLoad }));
    expect(easeNow(hard(true))).toMatch(/^3:20 of demanding playing/);
    expect(easeNow(hard(false))).toBeNull();
  });

  it('is due outside a sitting too, after what was heard of the line', () => {
    const { press, stand, practice } = sit();
    press('exercises', ...toLadder(stand()), 'open');
    const { view } = stand();
    if (view.screen !== 'practice') throw new Error('no line');
    const after = (played: number): Stand => ({
      ...stand(),
      view: { ...view, work: { ...view.work, practice: { ...practice()!, played } } },
    });
    expect(easeNow(after(1499))).toBeNull();
    expect(easeNow(after(1500))).toMatch(/^25:00 of playing/);
    expect(easeNow(firstStand([]))).toBeNull();
  });
});

describe('a block whose time is up while the click goes on', () => {
  it('counts what is played from the next repetition on, and nothing of the wait before it', () => {
    const { press, pass, practice, item, program, stand } = sit();
    press('open');
    while (!practice()) press('next-block');
    press('start-pause');
    pass(Math.ceil(item()?.length ?? 0) + 30);
    expect(stand().sitting?.run.phase).toBe('over');
    const waited = item()?.played ?? 0;
    expect(waited).toBeLessThanOrEqual(Math.ceil(item()?.length ?? 0));
    hear(program, 'count-in');
    pass(5);
    expect(item()?.played).toBe(waited);
    hear(program, 'repetition');
    pass(5);
    expect(stand().sitting?.run.phase).toBe('playing on');
    expect(item()?.played).toBe(waited + 5);
  });
});

describe('a program that is put to sleep', () => {
  it('stops clock, click and drone whichever screen shows, help too', () => {
    const { press, pass, practice, item, program, stand, commands } = sit();
    press('open');
    while (!practice()) press('next-block');
    press('drone', 'start-pause', 'help');
    program.send({ type: 'rest', now: stand().now });
    expect(commands().slice(-2)).toEqual([{ ask: 'stop' }, { ask: 'drone', drone: null }]);
    const before = item()?.played;
    pass(5);
    expect(item()?.played).toBe(before);
    expect(stand().sitting?.run.phase).toBe('paused');
  });
});
