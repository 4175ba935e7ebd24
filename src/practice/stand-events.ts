/** The one door of the program: what an event makes of the stand, and what is to be done outside. */
import type { DayEntry, TensionLevel, UndoEntry } from '../diary/entry.ts';
import type { PlayedLine } from '../ladder/speed/speed-knowledge.ts';
import type { Seconds } from '../common/units.ts';

import type { RunAction } from '../plan/run/running-routine.ts';
import { WAYS, askForWay, backToPractice } from './screens/ways-keys.ts';
import { decide } from './line/line-events.ts';
import { isDial, turnDial } from './screens/volume-keys.ts';
import { EXERCISES } from './screens/exercises-keys.ts';
import { beginNote, typeNote } from './screens/note-typing.ts';
import { isPracticeAction } from './line/line-keys.ts';
import type { Effect, Practice, PracticeEvent } from './line/line-on-stand.ts';
import { lineBefore, rotateAfter } from './sitting/next-key.ts';
import { SILENCE, act, begin, goOn, narrowedNow, onRun, takeBack, tell, toggleTone } from './sitting/sitting.ts';
import { estimateFor, relearn, withKnowledge } from './sitting/line-speed.ts';
import { type Action, type SittingAction, type Stand, type StandEvent, type StandStep, still } from './stand.ts';
import { TODAY, planned } from './screens/today-keys.ts';

type Did = Extract<StandEvent, { type: 'do' }>;

/** A sitting that is left keeps what was played. */
function leave(stand: Stand, now: Seconds): StandStep {
  const { state, effects } = act(stand, 'leave', now);
  return { state: { ...state, leaving: true }, effects: [...effects, ...SILENCE] };
}

/** From anywhere back to Today, which is fitted anew to what was done meanwhile. */
function back(stand: Stand, now: Seconds): StandStep {
  const { state, effects } = act(stand, 'leave', now);
  const silence: readonly Effect[] = stand.practice || stand.run ? SILENCE : [];
  return {
    state: planned({ ...state, screen: 'today', practice: null, run: null, tone: null }),
    effects: [...effects, ...silence],
  };
}

/** A mark more or less in this sitting. */
function withMarks(stand: Stand, before: Practice, after: Practice): Stand {
  const grown = after.done.length - before.done.length;
  const mark = (grown > 0 ? after : before).done.at(-1)?.mark ?? null;
  if (grown === 0 || mark === null) return stand;
  return { ...stand, marks: grown > 0 ? [...stand.marks, mark] : stand.marks.slice(0, -1) };
}

/** With the first mark a key that came round counts as played; with a mark the next one may be due. */
function afterStored({ state, effects }: StandStep, before: Practice): StandStep {
  const { practice, toKeep } = state;
  if (!practice) return { state, effects };
  const marked = withMarks(state, before, practice);
  const isMark = marked.marks.length > state.marks.length;
  const kept: Stand = isMark ? { ...marked, toKeep: [] } : marked;
  const keep = isMark ? toKeep : [];
  const rotated = rotateAfter(kept, before, narrowedNow(kept), keep.length);
  return rotated
    ? { state: rotated.state, effects: [...effects, ...keep, ...rotated.effects] }
    : { state: kept, effects: [...effects, ...keep] };
}

function toPractice(stand: Stand, event: PracticeEvent): StandStep {
  if (!stand.practice) return still(stand);
  const { state: practice, effects } = decide(stand.practice, event);
  const decided: StandStep = { state: { ...stand, practice }, effects };
  return event.type === 'stored' ? afterStored(decided, stand.practice) : decided;
}

const RUN_ACTIONS: Readonly<
  Record<Exclude<SittingAction, 'play-block' | 'pause-block' | 'tension' | 'note'>, RunAction>
> = {
  'next-block': 'next',
  longer: 'extend',
  'skip-block': 'skip',
  'swap-block': 'swap',
  'block-before': 'back',
  breath: 'breath',
};

const isOf = <Some extends Action>(table: Readonly<Record<Some, unknown>>, action: Action): action is Some =>
  action in table;

const isRunningBlock = ({ run }: Stand): boolean => run?.phase === 'playing' || run?.phase === 'over';

const pauseOrPlay = (stand: Stand, now: Seconds): StandStep =>
  act(stand, isRunningBlock(stand) ? 'pause' : 'start', now);

/** Starting to play starts the block's clock too. */
function withClock(stand: Stand, action: Action, now: Seconds): StandStep {
  return stand.run && action === 'start-pause' && !isRunningBlock(stand) ? act(stand, 'start', now) : still(stand);
}

function then(step: StandStep, more: (stand: Stand) => StandStep): StandStep {
  const next = more(step.state);
  return { state: next.state, effects: [...step.effects, ...next.effects] };
}

function practise(stand: Stand, { action, now }: Did): StandStep {
  if (!isPracticeAction(action)) return still(stand);
  const before = action === 'undo' ? lineBefore(stand) : null;
  if (before) return then(before, (state) => practise(state, { action, key: '', now, type: 'do' }));
  const clocked = withClock(stand, action, now);
  return then(clocked, (state) => toPractice(state, { type: 'do', action }));
}

const onToday = (stand: Stand, { action, key, now }: Did): StandStep => {
  if (action === 'open') return begin(stand, now);
  if (action === 'go-on') return goOn(stand, now);
  return still(isOf(TODAY, action) ? TODAY[action](stand, key, now) : stand);
};

/** Keys of a running routine, on the practice screen as on a block's own. */
function inSitting(stand: Stand, { action, key, now }: Did): StandStep | null {
  if (!stand.run) return null;
  if (action === 'note') return beginNote(stand);
  if (action === 'tension') return tell(stand, Number(key) as TensionLevel, now);
  if (action === 'play-block' || action === 'pause-block') return pauseOrPlay(stand, now);
  if (action === 'drone' && stand.screen === 'block') return toggleTone(stand);
  return isOf(RUN_ACTIONS, action) ? act(stand, RUN_ACTIONS[action], now) : null;
}

/** A page at a time would lose the line being read. */
function scroll(stand: Stand, action: Action): Stand {
  const by = action === 'down' ? 4 : action === 'up' ? -4 : 0;
  return { ...stand, scrolled: Math.max(0, stand.scrolled + by) };
}

/** The keys of the screen that shows. */
function onScreen(stand: Stand, did: Did): StandStep {
  if (stand.screen === 'today') return onToday(stand, did);
  if (stand.screen === 'exercises') return still(isOf(EXERCISES, did.action) ? EXERCISES[did.action](stand) : stand);
  if (stand.screen === 'weeks') return still(scroll(stand, did.action));
  if (stand.screen === 'ways') return isOf(WAYS, did.action) ? WAYS[did.action](stand) : still(stand);
  if (did.action === 'way') return askForWay(stand);
  if (did.action === 'undo' && (stand.screen === 'block' || stand.screen === 'end')) return takeBack(stand);
  return inSitting(stand, did) ?? (stand.screen === 'practice' ? practise(stand, did) : still(stand));
}

function doAction(stand: Stand, did: Did): StandStep {
  const { action, key, now } = did;
  if (stand.note !== null && key !== 'ctrl+c') return typeNote(stand, key);
  if (action === 'leave') return leave(stand, now);
  if (action === 'help') return still({ ...stand, help: !stand.help });
  if (stand.help) return still({ ...stand, help: false });
  if (action === 'back') return stand.screen === 'ways' ? backToPractice(stand) : back(stand, now);
  if (isDial(action)) return turnDial(stand, action);
  if (action === 'weeks' || action === 'settings') return still({ ...stand, screen: action, scrolled: 0 });
  // Putting the program to sleep is the terminal's business, not the stand's.
  if (action === 'suspend') return still(stand);
  return onScreen(stand, did);
}

/** The estimate is as new as the last mark. */
function withEstimate(stand: Stand): Stand {
  if (!stand.practice) return stand;
  const known = withKnowledge(stand);
  return { ...known, estimate: estimateFor(known, stand.practice.exercise, stand.practice.line) };
}

function withHistory(stand: Stand, id: string, history: PlayedLine | null): Stand {
  const { [id]: _, ...others } = stand.lines;
  const lines = history ? { ...others, [id]: history } : others;
  return withEstimate({ ...stand, lines, knowledge: relearn(stand.knowledge, history) });
}

/** What is taken back is there no more. */
const withRecord = (records: readonly DayEntry[], record: DayEntry | UndoEntry): readonly DayEntry[] =>
  record.kind === 'undo' ? records.filter(({ id }) => id !== record.of) : [...records, record];

export function onEvent(stand: Stand, event: StandEvent): StandStep {
  switch (event.type) {
    case 'do':
      return doAction(stand, event);
    case 'tick':
      return onRun(stand, event);
    case 'day':
      return still(planned({ ...stand, today: event.today }));
    case 'recorded':
      return still({ ...stand, records: withRecord(stand.records, event.record) });
    case 'line':
      return still(withHistory(stand, event.id, event.history));
    case 'learnt':
      return still({ ...stand, knowledge: stand.knowledge ?? event.knowledge });
    case 'sound':
      if (event.report.tell !== 'output') return toPractice(stand, event);
      return still({ ...stand, output: { state: event.report.state, sentence: event.report.sentence } });
    case 'not-stored':
      return stand.practice
        ? toPractice(stand, event)
        : still({ ...stand, notices: [event.sentence, ...stand.notices] });
    default:
      return toPractice(stand, event);
  }
}
