/** A sitting with one exercise that comes round; killed and gone on with as often as a test likes. */
import { type Entry, ofDay } from '../../src/diary/entry.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { turnName } from '../../src/plan/rotation/turn.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { planned } from '../../src/practice/screens/today-keys.ts';
import { turnOf } from '../../src/practice/sitting/next-key.ts';
import { itemNow } from '../../src/practice/sitting/sitting.ts';
import { type Action, openStand, practiceOf } from '../../src/practice/stand.ts';
import { hear, keeping, played } from './keeping.ts';

const cornet = instrumentNamed('cornet');
if (!cornet) throw new Error('no cornet');

export type Verdict = 'clean' | 'tense' | 'missed';

/** One exercise, `settings` as in a file, in one block of ten minutes. */
export function routineWith(settings: string, minutes = 10) {
  const exercise = `{pattern: "1 2 3 2 1 2 3 2", ${settings}}`;
  const text = `exercises: {study: ${exercise}}\nparts: [{part: All, blocks: [study: ${minutes}]}]\n`;
  const parsed = parseRoutine(text, 'own.yaml', () => ({ trouble: 'none' }));
  if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
  return parsed.routine;
}

export function turning(settings: string, earlier: readonly Entry[] = [], today = '2026-11-25', minutes = 10) {
  const routine = routineWith(settings, minutes);
  const { exercises } = routine;
  const known = earlier.length === 0 ? {} : Object.fromEntries(foldAll(earlier).lines);
  const undone = new Set(earlier.flatMap((entry) => (entry.kind === 'undo' ? [entry.of] : [])));
  const records = earlier.filter(ofDay).filter(({ id }) => !undone.has(id));
  const rest = { prepare: prepareFor(cornet!, 440), notices: [], dials: { click: 0.5, drone: 0.3, tapOffset: 0 } };
  const first = planned(openStand({ today, routines: [routine], exercises, lines: known, records, ...rest }));
  const journal = keeping(today, earlier);
  let now = 1000;
  const program = played({ ...first, now }, journal);
  const { stand, send } = program;
  const press = (...actions: readonly Action[]) =>
    actions.forEach((action) => send({ type: 'do', action, key: '', now }));
  return {
    program,
    stand,
    journal,
    press,
    item: () => itemNow(stand()),
    practice: () => {
      const practice = practiceOf(stand());
      if (!practice) throw new Error('no line on the stand');
      return practice;
    },
    /** The turn on the stand by its name. */
    turn: () => {
      const practice = practiceOf(stand());
      return practice && turnName(turnOf(practice));
    },
    /** Seconds pass, a tick each. */
    pass: (seconds: number) => {
      for (let k = 0; k < seconds; k += 1) send({ type: 'tick', now: (now += 1) });
    },
    /** A repetition is counted in, played, and marked in the breath. */
    repetition: (verdict: Verdict = 'clean') => {
      for (const role of ['count-in', 'repetition', 'breath'] as const) hear(program, role);
      press(verdict);
    },
    /** What the journal has of turns, oldest first, as a new start would read it. */
    came: () =>
      stand().known.records.flatMap((record) =>
        record.kind === 'draw' ? [record.laid ? `(${record.item})` : record.item] : [],
      ),
    /** The program is killed and started again. */
    killed: () => turning(settings, journal.entries, today, minutes),
    /** Another day. */
    nextDay: (day: string) => turning(settings, journal.entries, day, minutes),
  };
}
