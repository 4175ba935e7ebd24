/** Something more at the end of the running sitting: five minutes left over. */
import { BY_HAND, type ListItem } from '../../diary/entry.ts';
import { handItems } from '../../plan/today/hand-list.ts';
import { addItem } from '../../plan/run/running-routine.ts';
import { knownToday, listToday } from '../screens/today-keys.ts';
import type { Stand, StandStep } from '../stand.ts';
import { type Effect, andThen, keep, say, step } from '../step.ts';
import { carriedOut } from './sitting.ts';

/** What is played by hand is part of the day's list too, so that it is there tomorrow. */
function inList(stand: Stand, item: ListItem): readonly Effect[] {
  const isByHand = stand.sitting?.run.routine === BY_HAND;
  return isByHand ? [keep({ kind: 'list', items: [...listToday(stand), item] })] : [];
}

export function putAtEnd(stand: Stand, item: ListItem): StandStep {
  const { sitting, known } = stand;
  if (!sitting) return step(stand);
  const where = sitting.run.phase === 'finished' ? 'it lies ready' : 'it comes at the end';
  const inDay = handItems(listToday(stand), known.exercises, knownToday(stand)).map(({ block }) => block);
  const added = carriedOut(stand, addItem(sitting.run, item, known.exercises, inDay));
  const said = say(`${item.title}, ${Math.round(item.length / 60)} minutes: ${where}.`);
  return andThen(added, (state) => step(state, ...inList(stand, item), said));
}
