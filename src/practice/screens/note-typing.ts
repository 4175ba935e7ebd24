/** A free note at the end of a sitting, typed key by key. */
import { type Stand, type StandStep, still } from '../stand.ts';

/** Longer than this is a diary. */
export const LONGEST_NOTE = 500;

const withNote = (stand: Stand, note: string | null): StandStep => still({ ...stand, note });

export const beginNote = (stand: Stand): StandStep => withNote(stand, '');

function keepNote(stand: Stand, text: string): StandStep {
  if (text.trim() === '') return withNote(stand, null);
  return {
    state: { ...stand, note: null },
    effects: [{ type: 'record', record: { kind: 'note', text: text.trim() } }],
  };
}

/** One key while a note is being written: Enter keeps it, Esc drops it. */
export function typeNote(stand: Stand, key: string): StandStep {
  const text = stand.note ?? '';
  if (key === 'enter') return keepNote(stand, text);
  if (key === 'escape') return withNote(stand, null);
  if (key === 'backspace') return withNote(stand, [...text].slice(0, -1).join(''));
  if (key === 'space') return withNote(stand, `${text} `);
  const isCharacter = [...key].length === 1 && text.length < LONGEST_NOTE;
  return isCharacter ? withNote(stand, text + key) : still(stand);
}
