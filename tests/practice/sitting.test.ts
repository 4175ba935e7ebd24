import { type DayEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import type { SoundCommand } from '../../src/music/sound/sound-commands.ts';

import { current } from '../../src/plan/run/running-routine.ts';
import { onEvent } from '../../src/practice/stand-events.ts';
import type { Effect } from '../../src/practice/line/line-on-stand.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { leftOpen } from '../../src/practice/sitting/sitting.ts';
import { type Action, type Stand, type StandEvent, openStand } from '../../src/practice/stand.ts';
import { planned, withLastRoutine } from '../../src/practice/screens/today-keys.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';

const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
const { routine } = read;
const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');

const DAY = '2026-11-25';

function firstStand(records: readonly DayEntry[]): Stand {
  const given = {
    today: DAY,
    routines: [routine],
    exercises: routine.exercises,
    lines: {},
    records,
    prepare: prepareFor(cornet!, 440),
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  };
  return planned(openStand(given));
}

/** A sitting by a clock that only moves when told to; records are kept at once. */
function sit(records: readonly DayEntry[] = []) {
  let stand = firstStand(records);
  let now = 1000;
  const commands: SoundCommand[] = [];

  function perform(effect: Effect): void {
    if (effect.type === 'sound') commands.push(effect.command);
    if (effect.type === 'record')
      send({ type: 'recorded', record: { at: `${DAY}T10:00:00+01:00`, day: DAY, ...effect.record } as DayEntry });
    if (effect.type === 'store') send({ type: 'stored', id: `${now}` });
  }

  function send(event: StandEvent): void {
    const step = onEvent(stand, event);
    stand = step.state;
    step.effects.forEach(perform);
  }

  return {
    stand: () => stand,
    commands,
    press: (...actions: readonly Action[]) => actions.forEach((action) => send({ type: 'do', action, key: '', now })),
    key: (action: Action, key: string) => send({ type: 'do', action, key, now }),
    /** Seconds pass, a tick each. */
    pass: (seconds: number) => {
      for (let k = 0; k < seconds; k += 1) send({ type: 'tick', now: (now += 1) });
    },
    jump: (seconds: number) => {
      now += seconds;
    },
  };
}

describe('a sitting', () => {
  it('begins with the block under the finger and counts its time once it is started', () => {
    const { press, pass, stand } = sit();
    press('open');
    expect(stand().screen).toBe('block');
    pass(30);
    expect(current(stand().run!)?.played).toBe(0);
    press('play-block');
    pass(30);
    expect(current(stand().run!)?.played).toBe(30);
  });

  it('puts a line of a block with a ladder on the stand, and the first key starts click and clock together', () => {
    const { press, pass, stand, commands } = sit();
    press('open');
    while (stand().screen === 'block') press('next-block');
    const exercise = stand().practice?.exercise;
    expect(exercise?.work ?? 'ladder').toBe('ladder');
    commands.length = 0;
    press('start-pause');
    expect(commands.map(({ ask }) => ask)).toContain('play');
    pass(5);
    expect(current(stand().run!)?.played).toBe(5);
  });

  it('draws each key and articulation once before one comes twice', () => {
    const drawn: string[] = [];
    let records: readonly DayEntry[] = [];
    const lipBends = routine.exercises.find(({ id }) => id === 'lip-bends')!;
    for (let day = 0; day < lipBends.keys.length; day += 1) {
      const { press, stand } = sit(records);
      press('open');
      while (stand().practice?.line.exercise !== 'lip-bends') press('next-block');
      drawn.push(stand().practice!.line.key);
      // Tomorrow knows what was drawn, but nothing of today's blocks.
      records = stand().records.filter(({ kind }) => kind === 'draw');
    }
    expect([...drawn].sort()).toEqual([...lipBends.keys].sort());
  });

  it('is gone on with to the second after the program was killed', () => {
    const first = sit();
    first.press('open', 'play-block');
    first.pass(70);
    const killed = first.stand().records;
    const again = sit(killed);
    // The journal hears of a block once a minute, so at most that much is lost.
    expect(leftOpen(again.stand(), 0)?.remark).toMatch(/Go on with part one, block one \(Breath and buzz\): 2:00 left/);
    again.press('go-on');
    expect(current(again.stand().run!)?.played).toBe(60);
  });

  it('loses nothing when it is left', () => {
    const first = sit();
    first.press('open', 'play-block');
    first.pass(42);
    first.press('back');
    expect(first.stand().screen).toBe('today');
    expect(leftOpen(first.stand(), 0)?.remark).toMatch(/2:18 left/);
  });

  it('takes minutes that are typed anew after a pause as a new number', () => {
    const { key, jump, stand } = sit();
    key('type-time', '1');
    key('type-time', '0');
    jump(3);
    key('type-time', '2');
    key('type-time', '5');
    expect(stand().day.minutes).toBe(25);
  });

  it('asks for the tension of a block once, and keeps the answer', () => {
    const { press, key, stand } = sit();
    press('open', 'play-block', 'next-block');
    key('tension', '3');
    expect(stand().records.at(-1)).toMatchObject({ kind: 'tension', level: 3, exercise: 'easy-start' });
    key('tension', '1');
    expect(stand().records.filter(({ kind }) => kind === 'tension')).toHaveLength(1);
  });

  it('offers something easier after two high readings in a row, in the usual words', () => {
    const { press, key, stand } = sit();
    press('open');
    for (const level of ['3', '4']) {
      press('next-block');
      press('next-block');
      key('tension', level);
    }
    // Wording: the usual caution of health pages: stop on pain, see a licensed clinician or your teacher.
    expect(easeNow(stand())).toMatch(/rest|stop|down/);
    expect(easeNow(stand())).toMatch(/licensed clinician or your teacher/);
  });

  it('uses up no draw by being looked at', () => {
    const { press, stand } = sit();
    press('open');
    while (stand().screen === 'block') press('next-block');
    const drawn = stand().records.filter(({ kind }) => kind === 'draw').length;
    const { key } = stand().practice!;
    press('back');
    expect(stand().records.filter(({ kind }) => kind === 'draw')).toHaveLength(drawn);
    expect(key).toBeDefined();
  });

  it('goes on with whichever routine was being played', () => {
    const other = { ...routine, id: 'horn', title: 'Horn' };
    const first = sit();
    first.press('open', 'play-block');
    first.pass(70);
    const records = first
      .stand()
      .records.map((record) => ('routine' in record ? { ...record, routine: 'horn' } : record));
    const stand: Stand = { ...firstStand(records), routines: [routine, other] };
    expect(leftOpen(stand, 0)?.routine).toBe('horn');
    expect(withLastRoutine(stand).day.routine).toBe(1);
  });

  it('keeps a note that is typed at the end', () => {
    const { press, key, stand } = sit();
    press('open');
    for (let k = 0; k < 40 && stand().screen !== 'end'; k += 1) press('next-block');
    press('note');
    for (const each of ['q', 'space', 'x', 'y', 'backspace', 'enter']) key('note', each);
    expect(stand().records.at(-1)).toMatchObject({ kind: 'note', text: 'q x' });
    expect(stand().leaving).toBe(false);
  });

  it('ends on its own screen, with silence', () => {
    const { press, stand, commands } = sit();
    press('open');
    for (let k = 0; k < 40 && stand().screen !== 'end'; k += 1) press('next-block');
    expect(stand().screen).toBe('end');
    expect(commands.filter(({ ask }) => ask === 'drone').at(-1)).toEqual({ ask: 'drone', drone: null });
  });
});
