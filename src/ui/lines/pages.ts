/** Screens that are pages to be read: their drawing in lines, without the keys at its foot. */
import type { Screen, Stand } from '../../practice/stand.ts';
import { noteNow } from '../../practice/screens/note-typing.ts';
import type { KeyRow } from '../keys.ts';
import { plainText } from '../paint.ts';
import { formLines } from '../forms/form-lines.ts';
import { isForm, wholeScreen } from '../whole-screen.ts';

const PAGES: readonly Screen[] = ['first', 'weeks', 'settings', 'end'];

/** Wide enough for every table, and long enough for every list. */
const PAGE = { columns: 120, rows: 240 } as const;

/** Nothing where the screen is none of these, or while a note is being written. */
export function pageLines(stand: Stand, keys: readonly KeyRow[]): readonly string[] {
  if (isForm(stand)) return formLines(stand);
  const isPage = stand.help || PAGES.includes(stand.view.screen);
  if (!isPage || noteNow(stand) !== null) return [];
  const drawn = wholeScreen(stand, keys, PAGE, 'signs').slice(0, stand.help ? PAGE.rows : PAGE.rows - 1);
  return plainText(drawn).split('\n').filter(Boolean);
}
