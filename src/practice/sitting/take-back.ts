/** What one key takes back: the last thing the player said, be it a mark, a breath, a reading or a note. */
import type { DayEntry } from '../../diary/entry.ts';
import { decide } from '../line/line-events.ts';
import { type Stand, type StandStep, withPractice, workOf } from '../stand.ts';
import { andThen, keep, say, step, within } from '../step.ts';
import { comesAgain, lineBefore } from './next-key.ts';
import { act, recordsNow } from './sitting.ts';

const isTold = ({ kind }: DayEntry): boolean => kind === 'tension' || kind === 'note';

/** The id of the newest mark of the sitting, or tempo by hand of this line; ids stand in the order of time. */
const lastMarked = (stand: Stand): string =>
  [stand.marks, workOf(stand)?.practice.kept ?? []].map((entries) => entries.at(-1)?.id ?? '').toSorted()[1] ?? '';

const SAID: Readonly<Partial<Record<DayEntry['kind'], string>>> = {
  note: 'The note is taken back.',
  tension: 'The reading is taken back.',
};

/** The run's own memory of what was said goes with it: a note it never heard of. */
const unsaid = (stand: Stand, { kind }: DayEntry): StandStep =>
  kind === 'tension' && stand.sitting?.run.said.at(-1) === 'reading' ? act(stand, 'unsay') : step(stand);

const takeBackTold = (stand: Stand, told: DayEntry): StandStep =>
  andThen(unsaid(stand, told), (after) =>
    step(after, keep({ kind: 'undo', of: told.id }), say(SAID[told.kind] ?? null)),
  );

/** Whether a breath was the last thing said in this block. */
const isBreathLast = ({ sitting }: Stand): boolean => {
  const last = sitting?.run.said.at(-1);
  return last !== undefined && last !== 'reading';
};

const takeBackBreath = (stand: Stand): StandStep =>
  andThen(act(stand, 'unsay'), (after) => step(after, say('The breath is taken back.')));

function undoOnLine(stand: Stand): StandStep {
  const work = workOf(stand);
  if (!work) return step(stand, say('Nothing to take back here.'));
  return within(decide(work.practice, { type: 'do', action: 'undo' }), (practice) => withPractice(stand, practice));
}

/**
 * The newest of what was marked, counted and told in this sitting; an early mark that waits for its repetition's end
 * first.
 */
export function takeBack(stand: Stand): StandStep {
  if (isBreathLast(stand)) return takeBackBreath(stand);
  const told = recordsNow(stand).findLast(isTold);
  const isEarly = Boolean(workOf(stand)?.practice.due?.early);
  if (told && !isEarly && told.id > lastMarked(stand)) return takeBackTold(stand, told);
  const before = lineBefore(stand);
  return andThen(before ?? comesAgain(stand), undoOnLine);
}
