/** What one event does to the line on the stand. */
import type { Step } from '../step.ts';
import { hear } from './beat-heard.ts';
import { doAction } from './line-keys.ts';
import type { Practice, PracticeEvent } from './line-on-stand.ts';
import { onMarked, onNotKept } from './mark-kept.ts';
import { onTakenBack } from './mark-taken-back.ts';

/**
 * `decide(state, { type: 'do', action: 'clean' })` gives the next state and the effects to carry out, none of which
 * has happened yet. A mark changes the ladder only when its 'marked' event comes back: what the screen shows is on
 * disk.
 */
export function decide(practice: Practice, event: PracticeEvent): Step<Practice> {
  switch (event.type) {
    case 'do':
      return doAction(practice, event.action);
    case 'sound':
      return hear(practice, event.report);
    case 'marked':
      return onMarked(practice, event.entry);
    case 'taken back':
      return onTakenBack(practice, event.of);
    case 'not-kept':
      return onNotKept(practice);
  }
}
