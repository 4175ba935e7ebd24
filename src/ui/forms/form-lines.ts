/** The screens where one types, for terminals that are read out: where one is, and what may be typed there. */
import { handItems } from '../../plan/today/hand-list.ts';
import { type ListView, foundNow } from '../../practice/screens/day-list-keys.ts';
import { knownToday, listToday } from '../../practice/screens/today-keys.ts';
import type { Stand } from '../../practice/stand.ts';
import { mistakesIn } from '../../plan/own/form-mistakes.ts';
import type { FormView } from '../../practice/screens/own-form-keys.ts';
import { ANSWERS, HINTS, LABELS, LEAVE } from './form-words.ts';

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

/** What is wrong in the field that one is at, else what may be typed there. */
function fieldLine({ fields, at, asks }: FormView): string {
  if (asks) return `${LEAVE} ${ANSWERS.map((answer) => answer.join(' ')).join(', ')}.`;
  const wrong = fields[at] === '' ? undefined : mistakesIn(fields).find(({ field }) => field === at);
  return `${LABELS[at]}: ${wrong?.sentence ?? HINTS[at]}`;
}

/** Nothing where one does not type. */
export function formLines(stand: Stand): readonly string[] {
  const { view } = stand;
  if (view.screen === 'form') return [fieldLine(view)];
  return view.screen === 'list' ? [listLine(stand, view)] : [];
}
