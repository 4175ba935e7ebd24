/** The screens where one types, for terminals that are read out: where one is, and what may be typed there. */
import { handItems } from '../../plan/today/hand-list.ts';
import { type ListView, foundNow } from '../../practice/screens/day-list-keys.ts';
import { knownToday, listToday } from '../../practice/screens/today-keys.ts';
import type { Stand } from '../../practice/stand.ts';
import { HINTS, LABELS } from './form-words.ts';

function listLine(stand: Stand, view: ListView): string {
  if (view.doing === 'name') return 'Name of the list:';
  if (view.doing === 'find') {
    const found = foundNow(stand, view);
    return `Find: ${found[view.found]?.title ?? 'nothing is called that'}, ${found.length} found`;
  }
  const list = listToday(stand);
  const item = handItems(list, stand.known.exercises, knownToday(stand))[view.row];
  const minutes = Math.round((list[view.row]?.length ?? 0) / 60);
  return item ? `${view.row + 1} of ${list.length}: ${item.title}, ${minutes} minutes` : 'Nothing in the list yet.';
}

/** Nothing where one does not type. */
export function formLines(stand: Stand): readonly string[] {
  const { view } = stand;
  if (view.screen === 'form') return [`${LABELS[view.at]}: ${view.asks ? 'leave it?' : HINTS[view.at]}`];
  return view.screen === 'list' ? [listLine(stand, view)] : [];
}
