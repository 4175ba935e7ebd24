/** The one door of the program: what an event makes of the stand, and what is to be done outside. */
import type { LineHistory } from '../ladder/history.ts';
import { decide } from './decide.ts';
import { EXERCISES } from './exercises.ts';
import type { Effect, PracticeAction, PracticeEvent } from './practice.ts';
import { type Action, type Stand, type StandEvent, type StandStep, still } from './stand.ts';
import { sound } from './steps.ts';
import { TODAY, planned } from './today.ts';

/** Silence, drone included. */
const SILENCE: readonly Effect[] = [sound({ ask: 'stop' }), sound({ ask: 'drone', drone: null })];

const leave = (stand: Stand): StandStep => ({ state: { ...stand, leaving: true }, effects: SILENCE });

/** From anywhere back to Today, which is fitted anew to what was done meanwhile. */
const back = (stand: Stand): StandStep => ({
  state: planned({ ...stand, screen: 'today', practice: null }),
  effects: stand.practice ? SILENCE : [],
});

function toPractice(stand: Stand, event: PracticeEvent): StandStep {
  if (!stand.practice) return still(stand);
  const { state: practice, effects } = decide(stand.practice, event);
  return { state: { ...stand, practice }, effects };
}

const isOf = <Some extends Action>(table: Readonly<Record<Some, unknown>>, action: Action): action is Some => action in table;

/** The keys of the screen that shows. */
function onScreen(stand: Stand, action: Action, key: string): StandStep {
  if (stand.screen === 'today') return still(isOf(TODAY, action) ? TODAY[action](stand, key) : stand);
  if (stand.screen === 'exercises') return still(isOf(EXERCISES, action) ? EXERCISES[action](stand) : stand);
  return toPractice(stand, { type: 'do', action: action as PracticeAction });
}

function doAction(stand: Stand, action: Action, key: string): StandStep {
  if (action === 'leave') return leave(stand);
  if (action === 'help') return still({ ...stand, help: !stand.help });
  if (stand.help) return still({ ...stand, help: false });
  if (action === 'back') return back(stand);
  // Putting the program to sleep is the terminal's business, not the stand's.
  if (action === 'suspend') return still(stand);
  return onScreen(stand, action, key);
}

function withHistory(stand: Stand, id: string, history: LineHistory | null): Stand {
  const { [id]: _, ...others } = stand.lines;
  return { ...stand, lines: history ? { ...others, [id]: history } : others };
}

export function onEvent(stand: Stand, event: StandEvent): StandStep {
  if (event.type === 'do') return doAction(stand, event.action, event.key);
  if (event.type === 'sound' && event.report.tell === 'output') {
    const { state, sentence } = event.report;
    return still({ ...stand, output: { state, sentence } });
  }
  if (event.type === 'line') return still(withHistory(stand, event.id, event.history));
  return toPractice(stand, event);
}
