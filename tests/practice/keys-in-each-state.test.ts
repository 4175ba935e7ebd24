/** Keys that did the wrong thing in some state: what a player meets, one by one. */
import { describe, expect, it } from 'vitest';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { estimateFor } from '../../src/practice/sitting/line-speed.ts';
import { putOnStand } from '../../src/practice/sitting/put-on-stand.ts';
import { type Action, practiceOf } from '../../src/practice/stand.ts';
import { plainText } from '../../src/ui/paint.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';
import { DAY, firstStand, sit } from './daily-sitting.ts';
import { writer } from '../journal/entries.ts';
import { DISK_FULL, hear, keeping, played } from './keeping.ts';
import { EXERCISE, rehearse } from './rehearsal.ts';

type Sat = ReturnType<typeof sit>;

const toLine = ({ press, practice }: Sat): void => {
  while (!practice()) press('next-block');
};

/** To the first block that has a drone of its own. */
const toDrone = ({ press, stand }: Sat): void => {
  const hasDrone = (): boolean => {
    const { view } = stand();
    return view.screen === 'block' && view.tone?.droneState === 'waits';
  };
  for (let k = 0; k < 40 && !hasDrone(); k += 1) press('next-block');
  expect(hasDrone()).toBe(true);
};

const droneHeard = ({ commands }: Sat): boolean => {
  const last = commands().findLast(({ ask }) => ask === 'drone');
  return last?.ask === 'drone' && last.drone !== null;
};

const clickHeard = ({ commands }: Sat): boolean =>
  commands().findLast(({ ask }) => ask === 'play' || ask === 'stop')?.ask === 'play';

const repetition = ({ program, press }: Sat, mark: Action): void => {
  for (const role of ['count-in', 'repetition', 'breath'] as const) hear(program, role);
  press(mark);
};

/** Playing, to the end of the sitting. */
const toEnd = ({ press, screen }: Sat): void => {
  for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
  expect(screen()).toBe('end');
};

describe('p, when the door rings', () => {
  it('stops the clock of a line whose click has not been started, and does not start the click', () => {
    const sat = sit();
    const { press, pass, item, stand } = sat;
    press('open', 'play-block');
    toLine(sat);
    expect(stand().sitting?.run.phase).toBe('playing');
    press('pause-block');
    expect(stand().sitting?.run.phase).toBe('paused');
    expect(clickHeard(sat)).toBe(false);
    pass(30);
    expect(item()?.played).toBe(0);
    press('pause-block');
    expect(stand().sitting?.run.phase).toBe('playing');
    expect(clickHeard(sat)).toBe(true);
  });

  it('silences a drone that sounds on after the time is up, and does not start the clock', () => {
    const sat = sit();
    const { press, pass, item, stand } = sat;
    press('open');
    toDrone(sat);
    press('play-block');
    expect(droneHeard(sat)).toBe(true);
    pass(item()!.length);
    expect(stand().sitting?.run.phase).toBe('over');
    press('pause-block');
    expect(droneHeard(sat)).toBe(false);
    expect(stand().sitting?.run.phase).toBe('over');
    press('pause-block');
    expect(droneHeard(sat)).toBe(true);
    expect(stand().sitting?.run.phase).toBe('playing on');
  });
});

describe('d, on a block without a ladder', () => {
  it('lets the drone sound before the clock is started, to tune to, and the start leaves it sounding', () => {
    const sat = sit();
    sat.press('open');
    toDrone(sat);
    sat.press('drone');
    expect(droneHeard(sat)).toBe(true);
    sat.press('play-block');
    expect(droneHeard(sat)).toBe(true);
    sat.press('drone');
    expect(droneHeard(sat)).toBe(false);
    sat.press('play-block', 'play-block');
    expect(droneHeard(sat)).toBe(false);
  });

  it('lets it sound while the clock is paused', () => {
    const sat = sit();
    sat.press('open');
    toDrone(sat);
    sat.press('play-block', 'play-block');
    expect(droneHeard(sat)).toBe(false);
    sat.press('drone');
    expect(droneHeard(sat)).toBe(true);
  });
});

describe('u', () => {
  it('leaves an older reading alone when marks of the line before came after it', () => {
    const sat = sit();
    const { press, key, pass, records, stand } = sat;
    press('open', 'play-block');
    pass(120);
    toLine(sat);
    key('tension', '2');
    press('start-pause');
    repetition(sat, 'clean');
    press('next-block', 'undo');
    expect(records().filter(({ kind }) => kind === 'tension')).toHaveLength(1);
    expect(messageNow(stand())).toMatchObject({
      kind: 'answer',
      sentence: expect.stringMatching(/^Nothing to take back/),
    });
  });

  it('never reaches out of a line from the list for a note of this morning', () => {
    const write = writer();
    const note = { ...write.note('good low register'), day: DAY };
    const morning = firstStand([note]);
    const exercise = morning.known.exercises.find(({ id }) => id === 'lip-bends')!;
    const [key] = exercise.keys as [string];
    const line = { exercise: exercise.id, articulation: exercise.articulations[0]!, key };
    const { press, records } = sit([note], putOnStand(morning, exercise, { line, key }, null));
    press('undo');
    expect(records()).toEqual([note]);
  });

  it('asks again for a reading that was taken back, so that the right one can be said', () => {
    const { press, key, pass, records, stand } = sit();
    press('open', 'play-block');
    pass(60);
    press('next-block');
    key('tension', '3');
    press('undo');
    pass(9);
    expect(messageNow(stand())).toMatchObject({ kind: 'question', sentence: expect.stringMatching(/How tense/) });
    key('tension', '1');
    expect(records().filter(({ kind }) => kind === 'tension')).toMatchObject([{ level: 1 }]);
  });

  it('of the only mark of a line leaves the estimate that the player’s other lines lend it', () => {
    const write = writer();
    const day = { day: DAY, exercise: EXERCISE.id, articulation: 'slurred' };
    const exercise = { ...EXERCISE, keys: ['C', 'G'] };
    const earlier = ['F', 'D', 'Bb'].flatMap((key) =>
      Array.from({ length: 12 }, (_, k) => write.mark(k % 4 === 3 ? 'missed' : 'clean', 80, 80, { ...day, key })),
    );
    const journal = keeping(DAY, earlier);
    const first = firstStand([]);
    const known = { ...first.known, exercises: [exercise], lines: Object.fromEntries(journal.fold().lines) };
    const line = { exercise: exercise.id, articulation: 'slurred', key: 'C' };
    const program = played(putOnStand({ ...first, known }, exercise, { line, key: 'C' }, null), journal);
    const press = (action: Action) => program.send({ type: 'do', action, key: '', now: 1 });
    const estimate = () => estimateFor(program.stand().known, practiceOf(program.stand())!);
    const before = estimate();
    expect(before?.siblings).toBe(true);
    press('start-pause');
    for (const role of ['count-in', 'repetition', 'breath'] as const) hear(program, role);
    press('clean');
    expect(estimate()?.marks).toBe(1);
    press('undo');
    expect(estimate()).toEqual(before);
  });
});

describe('a full disk', () => {
  it('loses no note: it stays to be kept later, and the screen says why', () => {
    const sat = sit();
    const { program, press, key, stand, records } = sat;
    press('open');
    toEnd(sat);
    press('note');
    for (const each of ['o', 'k']) key('note', each);
    program.disk('full');
    key('note', 'enter');
    expect(stand().view).toEqual({ screen: 'end', note: 'ok' });
    const end = plainText(drawScreen(stand(), { columns: 100, rows: 40, lettering: 'signs', foot: [] }));
    expect(end).toContain('ok');
    expect(end).toContain(DISK_FULL);
    program.disk('free');
    key('note', 'enter');
    expect(stand().view).toEqual({ screen: 'end', note: null });
    expect(records().at(-1)).toMatchObject({ kind: 'note', text: 'ok' });
  });

  it('leaves a reading to be said again', () => {
    const { program, press, key, pass, records, stand } = sit();
    press('open', 'play-block');
    pass(60);
    press('next-block');
    program.disk('full');
    key('tension', '3');
    expect(messageNow(stand())?.sentence).toBe(DISK_FULL);
    program.disk('free');
    key('tension', '3');
    expect(records().at(-1)).toMatchObject({ kind: 'tension', level: 3 });
    key('tension', '1');
    expect(records().filter(({ kind }) => kind === 'tension')).toHaveLength(1);
  });

  it('does not stop the click of an exercise that repeats, where a verdict was given early', () => {
    const { press, until, bar, state } = rehearse({ diskFull: true, exercise: { noMark: 'repeat' } });
    press('start-pause');
    until('repetition');
    press('clean');
    until('breath');
    expect(bar()?.span.role).toBe('count-in');
    expect(state().due).toMatchObject({ early: null });
  });
});

describe('what is said of ease', () => {
  it('ends with the line that was tense: the next block does not carry it on', () => {
    const sat = sit();
    const { press, stand, screen } = sat;
    press('open');
    toLine(sat);
    press('start-pause');
    for (let k = 0; k < 3; k += 1) repetition(sat, 'tense');
    expect(easeNow(stand())).toMatch(/3 tense repetitions/);
    press('block-before');
    expect(screen()).toBe('block');
    expect(easeNow(stand())).toBeNull();
  });

  it('begins anew with each sitting: high readings of the morning are not the evening’s', () => {
    const morning = sit();
    morning.press('open', 'play-block');
    for (const level of ['3', '4']) {
      morning.pass(1);
      morning.press('next-block');
      morning.key('tension', level);
    }
    expect(easeNow(morning.stand())).not.toBeNull();
    const evening = sit(morning.records());
    evening.press('open');
    expect(easeNow(evening.stand())).toBeNull();
  });
});

describe('on a way round a wall', () => {
  it('what is to be played stands on the screen, though a tension is asked for', () => {
    const sat = sit();
    const { press, pass, stand } = sat;
    press('open', 'play-block');
    pass(30);
    toLine(sat);
    expect(messageNow(stand())?.kind).toBe('question');
    press('way', 'open');
    pass(9);
    expect(messageNow(stand())?.kind).toBe('way');
    press('way');
    pass(9);
    expect(messageNow(stand())?.kind).toBe('question');
  });
});

describe('a key that comes round', () => {
  const round = { ...EXERCISE, keys: ['C', 'G'], bars: 4 };
  const rotation = { ...PLAIN_ROTATION, order: 'fifths' as const, change: 'repetition' as const };
  const begin = (more: Partial<typeof EXERCISE> = {}) => {
    const exercise = { ...round, ...more, rotation };
    const first = firstStand([]);
    const line = { exercise: exercise.id, articulation: 'slurred', key: 'C' };
    const known = { ...first.known, exercises: [exercise] };
    const program = played(putOnStand({ ...first, known }, exercise, { line, key: 'C' }, null), keeping(DAY));
    const press = (action: Action) => program.send({ type: 'do', action, key: '', now: 1 });
    press('start-pause');
    const lastAsked = () => {
      const command = program.effects.findLast((effect) => effect.type === 'sound' && effect.command.ask === 'then');
      if (command?.type !== 'sound' || command.command.ask !== 'then') throw new Error('nothing was asked');
      return { roles: command.command.spans.map(({ role }) => role), cut: command.command.cut };
    };
    return { program, press, lastAsked };
  };

  it('leaves a bar to breathe after a repetition that was missed half way', () => {
    const { program, press, lastAsked } = begin();
    hear(program, 'count-in');
    hear(program, 'repetition');
    press('missed');
    expect(practiceOf(program.stand())?.key).toBe('G');
    expect(lastAsked()).toEqual({ roles: ['breath', 'count-in', 'repetition', 'breath', 'wait'], cut: true });
  });

  it('counts in once where no mark means clean: the count-in under way is the next key’s, at the same tempo', () => {
    const { program, lastAsked } = begin({ noMark: 'clean', ladder: { ...EXERCISE.ladder, start: 80 } });
    for (const role of ['count-in', 'repetition', 'breath', 'count-in'] as const) hear(program, role);
    expect(practiceOf(program.stand())?.key).toBe('G');
    expect(lastAsked()).toEqual({ roles: ['repetition', 'breath'], cut: false });
  });
});

describe('small things', () => {
  it('a late mark in the count-in, where the exercise repeats, counts in anew only for another tempo', () => {
    const { press, until, bar, drafts } = rehearse({ exercise: { noMark: 'repeat' } });
    press('start-pause');
    until('breath');
    until('count-in');
    press('clean');
    expect(drafts).toHaveLength(1);
    expect(bar()?.span.role).toBe('repetition');
    const other = rehearse({ exercise: { noMark: 'repeat' }, rule: { cleanUp: 1 } });
    other.press('start-pause');
    other.until('breath');
    other.until('count-in');
    other.press('clean');
    expect(other.bar()?.span).toMatchObject({ role: 'count-in', tempo: { bpm: other.climb().bpm } });
  });

  // Two of four bars of four quarters at 60: 8 s; arithmetic.
  it('the bars that were played before a pause count as played', () => {
    const { press, until, bar, state } = rehearse({ exercise: { bars: 4 }, rule: { start: 60 } });
    press('start-pause');
    until('repetition');
    bar();
    press('start-pause');
    expect(state().played).toBeCloseTo(8, 6);
  });

  it('a note is no longer than it may be, spaces too', () => {
    const sat = sit();
    const { press, key, stand } = sat;
    press('open');
    toEnd(sat);
    press('note');
    for (let k = 0; k < 501; k += 1) key('note', 'a');
    key('note', 'space');
    expect(stand().view).toEqual({ screen: 'end', note: 'a'.repeat(500) });
  });
});
