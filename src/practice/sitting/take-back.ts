/** What one key takes back: the last thing the player said, be it a mark, a reading or a note. */
import type { DayEntry } from '../../diary/entry.ts';
import { decide } from '../line/line-events.ts';
import { type Stand, type StandStep, withPractice, workOf } from '../stand.ts';
import { andThen, keep, say, step, within } from '../step.ts';
import { lineBefore } from './next-key.ts';

const isTold = ({ kind }: DayEntry): boolean => kind === 'tension' || kind === 'note';

/** The last reading or note of the sitting at hand, or of the day where none runs. */
function lastTold({ known, sitting }: Stand): DayEntry | null {
  const { records, today } = known;
  const began = sitting ? records.findLastIndex(({ kind }) => kind === 'plan') : -1;
  return records.slice(began + 1).findLast((entry) => isTold(entry) && entry.day === today) ?? null;
}

/** The id of the last mark that could be taken back; ids stand in the order of time. */
function lastMarked(stand: Stand): string | null {
  const work = workOf(stand);
  return work?.practice.kept.at(-1)?.id ?? work?.before.at(-1)?.kept.at(-1)?.id ?? null;
}

const SAID: Readonly<Partial<Record<DayEntry['kind'], string>>> = {
  note: 'The note is taken back.',
  tension: 'The reading is taken back.',
};

const takeBackTold = (stand: Stand, told: DayEntry): StandStep =>
  step(stand, keep({ kind: 'undo', of: told.id }), say(SAID[told.kind] ?? null));

function undoOnLine(stand: Stand): StandStep {
  const work = workOf(stand);
  if (!work) return step(stand);
  return within(decide(work.practice, { type: 'do', action: 'undo' }), (practice) => withPractice(stand, practice));
}

/** The newest of what was marked and what was told; an early mark that waits for the repetition's end comes first. */
export function takeBack(stand: Stand): StandStep {
  const told = lastTold(stand);
  const marked = lastMarked(stand);
  const isEarly = Boolean(workOf(stand)?.practice.due?.early);
  if (told && !isEarly && (marked === null || told.id > marked)) return takeBackTold(stand, told);
  const before = lineBefore(stand);
  return before ? andThen(before, undoOnLine) : undoOnLine(stand);
}
