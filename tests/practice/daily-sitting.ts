/** A sitting with the cornet player's daily routine, by a clock that only moves when told to; all is kept at once. */
import type { DayEntry } from '../../src/diary/entry.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import type { Routine } from '../../src/plan/routine/routine.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { itemNow } from '../../src/practice/sitting/sitting.ts';
import { type Action, type Stand, openStand, practiceOf } from '../../src/practice/stand.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';
import { keeping, played } from './keeping.ts';

const read = readRoutineFile(new URL('../../routines/cornet-daily.yaml', import.meta.url).pathname);
if (!('routine' in read)) throw new Error('the cornet routine cannot be read');
export const { routine } = read;
const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');

export const DAY = '2026-11-25';

/** A stand with one routine, on Today. */
export function standWith(own: Routine, records: readonly DayEntry[]): Stand {
  const given = {
    today: DAY,
    routines: [own],
    exercises: own.exercises,
    lines: {},
    records,
    prepare: prepareFor(cornet!, 440),
    notices: [],
    dials: { click: 0.5, drone: 0.3, tapOffset: 0 },
  };
  return planned(openStand(given));
}

export const firstStand = (records: readonly DayEntry[]): Stand => standWith(routine, records);

export function sit(records: readonly DayEntry[] = [], first = firstStand(records)) {
  let now = 1000;
  const journal = keeping(DAY, records);
  const program = played({ ...first, now }, journal);
  const { stand, send } = program;
  const screen = () => stand().view.screen;
  return {
    program,
    journal,
    stand,
    screen,
    records: () => stand().known.records,
    practice: () => practiceOf(stand()),
    item: () => itemNow(stand()),
    commands: () => program.effects.flatMap((effect) => (effect.type === 'sound' ? [effect.command] : [])),
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
