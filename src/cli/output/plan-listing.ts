/** A plan for today as lines for the terminal. */
import { harmless } from '../../common/harmless-text.ts';
import { minutesAndSeconds, minutesInWords } from '../../common/time-words.ts';
import type { DayOverview } from '../../plan/today/day-overview.ts';
import { type Plan, type PlanItem, totalMinutes } from '../../plan/today/plan-items.ts';
import { titleColumn } from './title-column.ts';

function itemLine(item: PlanItem): string {
  const turn = item.turn === null ? '' : ` (turn ${item.turn.n} of ${item.turn.of})`;
  return `  ${titleColumn(item.title + turn)} ${minutesInWords(item.minutes).padStart(8)}  ${item.reason}`;
}

/** What of the day was played, part by part; nothing before the first block. */
function doneLines({ parts, load }: DayOverview): readonly string[] {
  const done = parts.flatMap(({ title, state, blocks }) => {
    const played = blocks
      .filter(({ played: seconds }) => seconds > 0)
      .map((block) => `${harmless(block.title)} ${minutesAndSeconds(block.played)}`);
    return state === 'open' ? [] : [`  ${harmless(title)}, ${state}: ${played.join(', ')}`];
  });
  return [
    ...(done.length === 0 ? [] : ['', 'Played today:', ...done]),
    '',
    `${load.line}.`,
    ...(load.warning === null ? [] : [load.warning]),
  ];
}

export function planLines(plan: Plan, day: DayOverview): readonly string[] {
  const left = plan.leftOut.map(({ title, reason }) => `  ${titleColumn(title)} ${reason}`);
  return [
    ...plan.items.map(itemLine),
    `  ${titleColumn('')} ${minutesInWords(Math.round(totalMinutes(plan.items) * 2) / 2).padStart(8)}`,
    ...(plan.materials.length === 0
      ? []
      : ['', 'On the stand:', ...plan.materials.map((one) => `  ${harmless(one, 200)}`)]),
    ...(left.length === 0 ? [] : ['', 'Left out:', ...left]),
    ...doneLines(day),
    ...plan.sentences,
  ];
}
