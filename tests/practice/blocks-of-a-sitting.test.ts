/** Blocks of a sitting, one after the other: what lies on the stand, what is said, what is on the disk. */
import { describe, expect, it } from 'vitest';
import type { DayEntry } from '../../src/diary/entry.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import type { RunItem } from '../../src/plan/run/run-items.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { crossingOf, estimateFor, wallFor, withKnowledge } from '../../src/practice/sitting/line-speed.ts';
import { exerciseNow, leftOpen, narrowedNow, routineNow } from '../../src/practice/sitting/sitting.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { type Stand, practiceOf, withRun } from '../../src/practice/stand.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { dayPlus } from '../../src/common/days.ts';
import { writer } from '../journal/entries.ts';
import { DAY, firstStand, routine, sit } from './daily-sitting.ts';
import { hear } from './keeping.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

type Sat = ReturnType<typeof sit>;

const toLine = ({ press, practice }: Sat): void => {
  while (!practice()) press('next-block');
};

const draws = (records: readonly DayEntry[]) => records.filter(({ kind }) => kind === 'draw');

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
    press('exercises', 'open', 'next-block', 'skip-block', 'note', 'tension', 'pause-block', 'pause-block');
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
    press('exercises', 'open');
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

describe('the tempo at which a line opens', () => {
  const line = { exercise: EXERCISE.id, articulation: 'slurred', key: 'C' };
  const opened = (earlier: Parameters<typeof foldAll>[0], tempo: number | null = null) => {
    const first = firstStand([]);
    const lines = Object.fromEntries(foldAll(earlier).lines);
    const stand = { ...first, known: { ...first.known, exercises: [EXERCISE], lines } };
    return practiceOf(putOnStand(stand, EXERCISE, { line, key: 'C' }, tempo))!;
  };

  it('is where it was left today, runs and all, without a word', () => {
    const write = writer();
    const one = { ...line, day: DAY };
    const practice = opened([write.mark('clean', 80, 80, one), write.mark('clean', 80, 80, one)]);
    expect(practice.opened).toEqual({ bpm: 80, cleanRun: 2, missedRun: 0, best: null });
    expect(practice.remark).toBeNull();
  });

  it('on another day is where the marks say, with the reason, and the best is kept', () => {
    const write = writer();
    const before = { ...line, day: dayPlus(DAY, -3) };
    const practice = opened(Array.from({ length: 12 }, () => write.mark('clean', 80, 80, before)));
    expect(practice.opened).toMatchObject({ cleanRun: 0, best: 80 });
    expect(practice.remark).not.toBeNull();
  });

  it('is the player’s own where one was chosen for a line without marks', () => {
    const write = writer();
    const practice = opened([{ ...write.tempo(66), ...line, day: dayPlus(DAY, -3) }]);
    expect(practice.opened.bpm).toBe(66);
    expect(practice.remark).toBeNull();
  });

  it('is what the player asks for, from which the runs start anew', () => {
    const write = writer();
    const one = { ...line, day: DAY };
    const marks = [0, 1, 2, 3].map(() => write.mark('clean', 80, 80, one));
    expect(opened(marks, 92)).toMatchObject({ opened: { bpm: 92, cleanRun: 0, best: 80 }, remark: null });
    expect(opened(marks, 80).opened).toMatchObject({ bpm: 80, cleanRun: 1 });
  });
});

describe('what is known of a line’s speed', () => {
  const write = writer();
  const marks = (articulation: string, bpm: number, n = 20) =>
    Array.from({ length: n }, (_, k) =>
      write.mark(k % 5 === 4 ? 'missed' : 'clean', bpm, bpm, {
        exercise: EXERCISE.id,
        articulation,
        key: 'C',
        day: DAY,
      }),
    );
  const knownWith = (entries: Parameters<typeof foldAll>[0]) => {
    const { known } = firstStand([]);
    return { ...known, lines: Object.fromEntries(foldAll(entries).lines) };
  };
  const exercise = { ...EXERCISE, articulations: ['single', 'double'] };

  it('is nothing until it is asked for, and the same answer as long as nothing new is known', () => {
    const known = knownWith(marks('slurred', 100));
    const practice = rehearse().state();
    expect(estimateFor(known, practice)).toBeNull();
    expect(wallFor(known, practice)).toBeNull();
    const asked = withKnowledge(known);
    expect(withKnowledge(asked).knowledge).toBe(asked.knowledge);
    const one = estimateFor(asked, practice);
    expect(one?.marks).toBe(20);
    expect(estimateFor(asked, practice)).toBe(one);
    const later = estimateFor({ ...asked, today: dayPlus(DAY, 60) }, practice);
    expect(later!.high - later!.low).toBeGreaterThan(one!.high - one!.low);
  });

  it('says where double takes over from single, once both were played in the key', () => {
    const both = withKnowledge(knownWith([...marks('single', 100), ...marks('double', 130)]));
    expect(crossingOf(both, exercise, 'C')).not.toBeNull();
    expect(crossingOf(both, exercise, 'G')).toBeNull();
    expect(crossingOf(both, { ...exercise, articulations: ['single'] }, 'C')).toBeNull();
    for (const only of ['single', 'double'] as const)
      expect(crossingOf(withKnowledge(knownWith(marks(only, 100))), exercise, 'C')).toBeNull();
  });
});

describe('what is put on the stand for the player’s instrument', () => {
  const cornet = instrumentNamed('cornet')!;
  const prepared = (key: string, more: Partial<typeof EXERCISE> = {}, articulation = 'slurred') =>
    prepareFor(cornet, 442)({ ...EXERCISE, ...more }, { exercise: EXERCISE.id, key, articulation });

  // A cornet in B flat sounds a whole tone lower than written; MIDI numbers: B flat 3 is 58. Common practice, no source.
  it.each([
    ['C', 58],
    ['D', 48],
    ['Db', 59],
    ['F', 51],
    ['B', 57],
  ])('a drone on the tonic of %s, as it sounds, in one octave from the C below the staff', (key, midi) => {
    expect(prepared(key).drone).toEqual({
      tonic: midi,
      voices: ['tonic'],
      tuning: 'just',
      timbre: 'reed',
      a4: 442,
      gain: 1,
      detune: 0,
    });
    expect(prepared(key)).toMatchObject({ drill: null, remark: null });
  });

  it('the drone that the exercise asks for, and C where a key cannot be read', () => {
    expect(prepared('C', { drone: { voices: ['tonic', 'fifth'], tuning: 'equal' } }).drone).toMatchObject({
      voices: ['tonic', 'fifth'],
      tuning: 'equal',
      tonic: 58,
    });
    expect(prepared('all keys').drone.tonic).toBe(58);
  });

  it('what could be played instead where the pattern does not fit, and why', () => {
    const { drill, remark } = prepared('C', { pattern: '1 8 15 22 | 29', notesPerBeat: 1 });
    expect(remark).toMatch(/does not fit/);
    expect(drill?.notes.length).toBeGreaterThan(0);
  });

  it('no notes for an articulation that cannot be read', () => {
    expect(prepared('C', { pattern: '1 2 3 4 | 1', notesPerBeat: 1 }, 'hummed').drill).toBeNull();
    expect(prepared('C', { pattern: '1 2 3 4 | 1', notesPerBeat: 1 }).drill).not.toBeNull();
  });
});
