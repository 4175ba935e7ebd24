/** The heart of the program: what one event does to the line on the stand. */
import { doAction } from './line-keys.ts';
import { hear } from './beat-heard.ts';
import type { Practice, PracticeEvent, Step } from './line-on-stand.ts';
import { onStored } from './mark-kept.ts';

/**
 * `decide(state, { type: 'do', action: 'clean' })` gives the next state and the effects to carry out, none of which
 * has happened yet. A mark changes the ladder only when its 'stored' event comes back: what the screen shows is on
 * disk.
 */
export function decide(practice: Practice, event: PracticeEvent): Step<Practice> {
  switch (event.type) {
    case 'do':
      return doAction({ ...practice, hint: null }, event.action);
    case 'sound':
      return hear(practice, event.report);
    case 'stored':
      return onStored(practice, event.id);
    case 'not-stored':
      return { state: { ...practice, saving: null, hint: event.sentence }, effects: [] };
  }
}
