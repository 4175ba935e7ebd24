/** A free note at the end of a sitting, typed key by key. */
import type { Stand, StandStep, View } from '../stand.ts';
import { type Effect, keep, step } from '../step.ts';

/** Longer than this is a diary. */
const LONGEST_NOTE = 500;

/** The note being written; null when none is. */
export const noteNow = ({ view }: { readonly view: View }): string | null => (view.screen === 'end' ? view.note : null);

const withNote = (stand: Stand, note: string | null): Stand => ({ ...stand, view: { screen: 'end', note } });

export const beginNote = (stand: Stand): StandStep => step(stand.view.screen === 'end' ? withNote(stand, '') : stand);

/** What was written stays until it is on the disk. */
const keepNote = (stand: Stand, text: string): StandStep =>
  text.trim() === '' ? step(withNote(stand, null)) : step(stand, keep({ kind: 'note', text: text.trim() }));

/** What was typed so far, to be kept where the program is left in the middle of it. */
export function unfinishedNote(stand: Stand): readonly Effect[] {
  const text = noteNow(stand)?.trim() ?? '';
  return text === '' ? [] : [keep({ kind: 'note', text })];
}

export const noteKept = (stand: Stand): Stand => (noteNow(stand) === null ? stand : withNote(stand, null));

/** One key while a note is being written: Enter keeps it, Esc drops it. */
export function typeNote(stand: Stand, text: string, key: string): StandStep {
  if (key === 'enter') return keepNote(stand, text);
  if (key === 'escape') return step(withNote(stand, null));
  if (key === 'backspace') return step(withNote(stand, [...text].slice(0, -1).join('')));
  const character = key === 'space' ? ' ' : key;
  const fits = [...character].length === 1 && text.length < LONGEST_NOTE;
  return step(fits ? withNote(stand, text + character) : stand);
}
