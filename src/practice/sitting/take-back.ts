/** What one key takes back: the last thing the player said, be it a mark, a reading or a note. */
import type { DayEntry } from '../../diary/entry.ts';
import { decide } from '../line/line-events.ts';
import { type Stand, type StandStep, withPractice, workOf } from '../stand.ts';
import { andThen, keep, say, step, within } from '../step.ts';
import { comesAgain, lineBefore } from './next-key.ts';
import { recordsNow } from './sitting.ts';

const isTold = ({ kind }: DayEntry): boolean => kind === 'tension' || kind === 'note';

/** The id of the newest mark of the sitting, or tempo by hand of this line; ids stand in the order of time. */
const lastMarked = (stand: Stand): string =>
  [stand.marks, workOf(stand)?.practice.kept ?? []].map((entries) => entries.at(-1)?.id ?? '').toSorted()[1] ?? '';

const SAID: Readonly<Partial<Record<DayEntry['kind'], string>>> = {
  note: 'The note is taken back.',
  tension: 'The reading is taken back.',
};

const takeBackTold = (stand: Stand, told: DayEntry): StandStep =>
  step(stand, keep({ kind: 'undo', of: told.id }), say(SAID[told.kind] ?? null));

function undoOnLine(stand: Stand): StandStep {
  const work = workOf(stand);
  if (!work) return step(stand, say('Nothing to take back here.'));
  return within(decide(work.practice, { type: 'do', action: 'undo' }), (practice) => withPractice(stand, practice));
}

/** The newest of what was marked and told in this sitting; an early mark that waits for its repetition's end first. */
export function takeBack(stand: Stand): StandStep {
  const told = recordsNow(stand).findLast(isTold);
  const isEarly = Boolean(workOf(stand)?.practice.due?.early);
  if (told && !isEarly && told.id > lastMarked(stand)) return takeBackTold(stand, told);
  const before = lineBefore(stand);
  return andThen(before ?? comesAgain(stand), undoOnLine);
}
