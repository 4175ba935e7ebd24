/** The one door of the program: what an event makes of the stand, and what is to be done outside. */
import { type DayEntry, type Entry, type LadderEntry, type MarkEntry, ofDay, ofLadder } from '../diary/entry.ts';
import { lineName } from '../ladder/line.ts';
import type { Seconds } from '../common/units.ts';
import type { SoundReport } from '../music/sound/sound-commands.ts';
import { decide } from './line/line-events.ts';
import { spanHeard } from './line/line-state.ts';
import type { PracticeEvent } from './line/line-on-stand.ts';
import { comesBack } from '../plan/rotation/next-turn.ts';
import { isAnswerOver } from './messages.ts';
import { noteKept } from './screens/note-typing.ts';
import { ownAnswered } from './screens/own-form-keys.ts';
import { readAgain } from './screens/read-again.ts';
import { afterPlaying, withListToday } from './screens/today-keys.ts';
import { withLine } from './sitting/line-speed.ts';
import { namesToKeep } from './sitting/keys-that-came.ts';
import { rotateAfter } from './sitting/next-key.ts';
import { act, narrowedNow, onRun, stop } from './sitting/sitting.ts';
import { tensionAskedAgain, tensionKept } from './sitting/tension-reading.ts';
import { onKey } from './stand-keys.ts';
import {
  type KnownSoFar,
  type LineKnown,
  type Stand,
  type StandEvent,
  type StandStep,
  practiceOf,
  withPractice,
  withWork,
  workOf,
} from './stand.ts';
import { andThen, say, step, within } from './step.ts';

function toLine(stand: Stand, event: PracticeEvent): StandStep {
  const practice = practiceOf(stand);
  return practice ? within(decide(practice, event), (state) => withPractice(stand, state)) : step(stand);
}

/** What is taken back is there no more. */
function recordsWith(records: readonly DayEntry[], entry: Entry): readonly DayEntry[] {
  if (entry.kind === 'undo') return records.filter(({ id }) => id !== entry.of);
  return ofDay(entry) ? [...records, entry] : records;
}

function knownWith(known: KnownSoFar, entry: Entry, line: LineKnown | null): KnownSoFar {
  const learnt = line ? withLine(known, line) : known;
  return { ...learnt, records: recordsWith(known.records, entry) };
}

/** With the first mark a key that came round counts as played; with a mark the next one may be due. */
function afterMark(stand: Stand, entry: MarkEntry): StandStep {
  const work = workOf(stand);
  const marked: Stand = { ...stand, marks: [...stand.marks, entry] };
  // The missed one comes back: it has not come yet.
  if (work && comesBack(work.practice.exercise, entry.mark))
    return step(marked, say(`${entry.articulation} again: the missed one comes back.`));
  const toKeep = work?.toKeep ?? [];
  const played = withWork(marked, (one) => ({ ...one, toKeep: [] }));
  return andThen(step(played, ...toKeep), (state) =>
    rotateAfter(state, entry, narrowedNow(state), namesToKeep(toKeep)),
  );
}

const isOnStand = (stand: Stand, entry: LadderEntry): boolean => {
  const practice = practiceOf(stand);
  return practice !== null && lineName(practice.line) === lineName(entry);
};

function onLadderEntry(stand: Stand, entry: LadderEntry): StandStep {
  if (!isOnStand(stand, entry)) return step(stand);
  const marked = toLine(stand, { type: 'marked', entry });
  return entry.kind === 'mark' ? andThen(marked, (state) => afterMark(state, entry)) : marked;
}

function onTakenBack(stand: Stand, of: string, record: DayEntry | undefined): StandStep {
  const marks = stand.marks.filter(({ id }) => id !== of);
  const without: Stand = { ...stand, marks };
  if (record?.kind === 'list') return step(withListToday(stand));
  const asked = record?.kind === 'tension' ? tensionAskedAgain(without, record) : without;
  return toLine(asked, { type: 'taken back', of });
}

function onTold(stand: Stand, { kind }: DayEntry): Stand {
  if (kind === 'tension') return tensionKept(stand);
  if (kind === 'list') return withListToday(stand);
  // The last of a sitting that was left is kept when Today shows already.
  if (kind === 'block' && !stand.sitting) return afterPlaying(stand);
  return kind === 'note' ? noteKept(stand) : stand;
}

function onKept(stand: Stand, entry: Entry, line: LineKnown | null): StandStep {
  const informed: Stand = { ...stand, known: knownWith(stand.known, entry, line) };
  if (ofLadder(entry)) return onLadderEntry(informed, entry);
  if (entry.kind !== 'undo') return step(onTold(informed, entry));
  const { of } = entry;
  return onTakenBack(
    informed,
    of,
    stand.known.records.find(({ id }) => id === of),
  );
}

/** Nothing that was to be kept is lost without a word. */
function onNotKept(stand: Stand, sentence: string): StandStep {
  const said: Stand = { ...stand, answer: { sentence, since: stand.now } };
  const known = stand.notices.includes(sentence) ? stand.notices : [sentence, ...stand.notices];
  return toLine({ ...said, notices: known }, { type: 'not-kept' });
}

/** A repetition that begins when the block's time is up: the player plays on, and that counts. */
function playsOn(stand: Stand, report: SoundReport): boolean {
  const practice = practiceOf(stand);
  const begins = report.tell === 'beat' && report.bar === 0 && report.beat === 0;
  return (
    begins && stand.sitting?.run.phase === 'over' && practice !== null && spanHeard(practice)?.role === 'repetition'
  );
}

function onSound(stand: Stand, report: SoundReport): StandStep {
  if (report.tell !== 'output') {
    const heard = toLine(stand, { type: 'sound', report });
    return playsOn(heard.state, report) ? andThen(heard, (state) => act(state, 'start')) : heard;
  }
  return step({ ...stand, output: { state: report.state, sentence: report.sentence } });
}

/** Where nothing runs and nothing is said, time passes unnoticed: the screen need not be drawn anew. */
function onTick(stand: Stand, now: Seconds): StandStep {
  const { answer, sitting } = stand;
  if (!answer && !sitting && !practiceOf(stand)) return step(stand);
  const timed: Stand = { ...stand, now, answer: answer && isAnswerOver(answer, now) ? null : answer };
  return sitting ? onRun(timed, { type: 'tick', now }) : step(timed);
}

/** The block's clock stops with click and drone. */
const onRest = (stand: Stand): StandStep => andThen(stop(stand), (quiet) => act(quiet, 'pause'));

function happened(stand: Stand, event: StandEvent): StandStep {
  switch (event.type) {
    case 'do':
      return onKey(stand, event);
    case 'tick':
      return onTick(stand, event.now);
    case 'day':
      return step(withListToday({ ...stand, known: { ...stand.known, today: event.today } }));
    case 'sound':
      return onSound(stand, event.report);
    case 'kept':
      return onKept(stand, event.entry, event.line);
    case 'not-kept':
      return onNotKept(stand, event.sentence);
    case 'read':
      return step(readAgain(stand, event.read));
    case 'own':
      return ownAnswered(stand, event.answer);
    case 'rest':
      return onRest({ ...stand, now: event.now });
    case 'not-set':
      return step({ ...stand, settings: { ...stand.settings, ...event.before } }, say(event.sentence));
    case 'learnt':
      return step({ ...stand, known: { ...stand.known, knowledge: stand.known.knowledge ?? event.knowledge } });
  }
}

/** What is said becomes the answer on the screen: it goes no further. */
function answered({ state, effects }: StandStep): StandStep {
  const said = effects.filter((effect) => effect.type === 'say').at(-1);
  if (!said) return { state, effects };
  const answer = said.sentence === null ? null : { sentence: said.sentence, since: state.now };
  return { state: { ...state, answer }, effects: effects.filter(({ type }) => type !== 'say') };
}

export const onEvent = (stand: Stand, event: StandEvent): StandStep => answered(happened(stand, event));
