/**
 * What is known from a journal, said once more as plainly as it can be: each line and each block looks through all
 * entries. Slow, and with nothing remembered between entries, so that it can be wrong in other ways only.
 */
import { dayPlus } from '../../src/common/days.ts';
import { type DayEntry, type Entry, type LadderEntry, type MarkEntry, ofDay, ofLadder } from '../../src/diary/entry.ts';
import { lineName } from '../../src/ladder/line.ts';
import { type Climb, startAt, withMarked } from '../../src/ladder/rule/climb.ts';

const isMark = (entry: Entry): entry is MarkEntry => entry.kind === 'mark';
const MARKS = ['clean', 'tense', 'missed'] as const;

const countsIn = (marks: readonly MarkEntry[]) =>
  Object.fromEntries(MARKS.map((mark) => [mark, marks.filter((one) => one.mark === mark).length]));

/** Marks in stretches of one day. */
const stretches = (marks: readonly MarkEntry[]): readonly (readonly MarkEntry[])[] =>
  marks.reduce<readonly (readonly MarkEntry[])[]>((all, mark) => {
    const last = all.at(-1);
    return last?.[0]?.day === mark.day ? [...all.slice(0, -1), [...last, mark]] : [...all, [mark]];
  }, []);

const talliesOf = (marks: readonly MarkEntry[]) =>
  stretches(marks).flatMap((stretch) =>
    [...new Set(stretch.map(({ bpm }) => bpm))].map((bpm) => ({
      day: stretch[0]!.day,
      bpm,
      ...countsIn(stretch.filter((mark) => mark.bpm === bpm)),
    })),
  );

const climbAfter = (entries: readonly LadderEntry[]): Climb =>
  entries.reduce<Climb>(
    (climb, entry) => (isMark(entry) ? withMarked(climb, entry) : startAt(entry.next, climb.best)),
    startAt(isMark(entries[0]!) ? entries[0].bpm : entries[0]!.next),
  );

function lineOf(entries: readonly LadderEntry[]) {
  const { best, ...where } = climbAfter(entries);
  const marks = entries.filter(isMark);
  const keys = new Set(marks.flatMap(({ sounded }) => sounded ?? []));
  const first = entries.findIndex((_, index) => best !== null && climbAfter(entries.slice(0, index + 1)).best === best);
  const held = entries[first] as MarkEntry | undefined;
  const { exercise, articulation, key } = entries[0]!;
  return {
    line: { exercise, articulation, key },
    ...where,
    best: held ? { bpm: best, day: held.day, beat: held.beat, notesPerBeat: held.notesPerBeat } : null,
    tallies: talliesOf(marks),
    ...(keys.size > 0
      ? { keys: Object.fromEntries([...keys].map((one) => [one, countsIn(marks.filter((m) => m.sounded === one))])) }
      : {}),
    lastDay: marks.at(-1)?.day ?? '',
    beat: marks.at(-1)?.beat ?? '',
    notesPerBeat: marks.at(-1)?.notesPerBeat ?? 0,
  };
}

const isSameBlock = (a: DayEntry, b: DayEntry): boolean =>
  a.kind === 'block' && b.kind === 'block' && a.block === b.block && a.part === b.part && a.routine === b.routine;

/** Whether a report on the same block follows before another day comes. */
function isReplaced(entry: DayEntry, later: readonly DayEntry[]): boolean {
  const until = later.findIndex(({ day }) => day !== entry.day);
  return later.slice(0, until < 0 ? later.length : until).some((other) => isSameBlock(entry, other));
}

/** Entries in the order of their ids, none twice. */
export function plainly(entries: readonly Entry[]) {
  const counting = entries.filter(({ id }) => !entries.some((entry) => entry.kind === 'undo' && entry.of === id));
  const ladder = counting.filter(ofLadder);
  const days = counting.filter(ofDay);
  const newest = entries.reduce((last, { day }) => (day > last ? day : last), '');
  const names = [...new Set(ladder.map(lineName))];
  return {
    lines: new Map(names.map((name) => [name, lineOf(ladder.filter((entry) => lineName(entry) === name))])),
    others: days
      .filter((entry, index) => !isReplaced(entry, days.slice(index + 1)))
      .filter(({ day }) => day >= dayPlus(newest, -400)),
    lastId: entries.at(-1)?.id ?? null,
    lastDay: newest,
  };
}
