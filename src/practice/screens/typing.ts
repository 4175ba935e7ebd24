/** Where a text is being written, every key goes into it as it is. */
import type { Stand, StandStep } from '../stand.ts';
import { step } from '../step.ts';
import { typeInList } from './day-list-keys.ts';
import { typeInFirst } from './first-start-keys.ts';
import { noteNow, typeNote } from './note-typing.ts';
import { typeInWeeks } from '../weeks/weeks-keys.ts';
import { isTypingSetting, typeSetting } from './settings-keys.ts';
import { typeInForm } from './own-form-keys.ts';

/** While the list is put in order its keys are commands; found and named, its things are typed. */
export const takesText = ({ view, help }: Pick<Stand, 'view' | 'help'>): boolean =>
  !help &&
  (view.screen === 'first' ||
    isTypingSetting({ view }) ||
    view.screen === 'form' ||
    (view.screen === 'list' && view.doing !== 'order') ||
    (view.screen === 'weeks' && view.isTyping) ||
    noteNow({ view }) !== null);

export function typeText(stand: Stand, key: string): StandStep {
  const { view } = stand;
  if (view.screen === 'first') return typeInFirst(stand, view, key);
  if (view.screen === 'settings') return typeSetting(stand, view, key);
  if (view.screen === 'form') return typeInForm(stand, view, key);
  if (view.screen === 'list') return typeInList(stand, view, key);
  if (view.screen === 'weeks') return typeInWeeks(stand, view, key);
  const note = noteNow(stand);
  return note === null ? step(stand) : typeNote(stand, note, key);
}
