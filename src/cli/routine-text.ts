/** A routine and a plan as lines for the terminal. */
import { minutesAndSeconds, minutesInWords } from '../common/time-words.ts';
import type { DayView } from '../plan/today/day-overview.ts';
import { harmless } from '../common/harmless-text.ts';
import { type Plan, type PlanItem, totalMinutes } from '../plan/today/plan-items.ts';
import { type Block, type Part, type Routine, blocksOf } from '../plan/routine/routine.ts';

const minutesOf = (blocks: readonly Block[]): number => blocks.reduce((sum, { minutes }) => sum + minutes, 0);

const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;

const LONGEST = 34;
const padded = (text: string): string => harmless(text, LONGEST).padEnd(LONGEST);

/** What a block's line says besides its title and minutes. */
function remarks(block: Block): string {
  const every = block.everyDays === 1 ? [] : [`every ${block.everyDays} days`];
  const drawn = block.content.is === 'pool' ? [`drawn from ${block.content.pool}`] : [];
  return [
    ...(block.warmUp ? ['warm-up'] : []),
    ...drawn,
    ...every,
    ...(block.highLoad ? ['high load'] : []),
    ...(block.always && !block.warmUp ? ['in every day'] : []),
  ].join(', ');
}

const blockLine = (block: Block): string =>
  `    ${padded(block.title)} ${minutesInWords(block.minutes).padStart(8)}  ${remarks(block)}`.trimEnd();

const partLines = ({ title, blocks }: Part): readonly string[] => [
  `  ${harmless(title)}, ${minutesInWords(minutesOf(blocks))}`,
  ...blocks.map(blockLine),
];

/** `summaryLine(routine)` is 'cornet-daily: 5 parts, 12 blocks, 13 exercises, 71 min'. */
export const summaryLine = (routine: Routine): string =>
  `${routine.id}: ${count(routine.parts.length, 'part')}, ${count(blocksOf(routine).length, 'block')}, ` +
  `${count(routine.exercises.length, 'exercise')}, ${minutesInWords(minutesOf(blocksOf(routine)))}`;

export function routineLines(routine: Routine): readonly string[] {
  const about =
    routine.about.trim() === ''
      ? []
      : routine.about
          .trim()
          .split('\n')
          .map((line) => harmless(line, 200));
  const breaks = routine.breaks === null ? 'none' : `${routine.breaks.minutes} min after ${routine.breaks.after}`;
  return [
    `${harmless(routine.title)} (${routine.instrument})`,
    ...about,
    '',
    ...routine.parts.flatMap(partLines),
    '',
    `rests: ${breaks}; at most ${routine.limits.sameKind} blocks of a kind in a row, ` +
      `${minutesInWords(routine.limits.highLoad)} of high load together`,
    ...routine.pools.map(
      ({ id, items, everyDays }) => `pool ${id}: ${items.join(', ')}; each within ${everyDays} days`,
    ),
  ];
}

function itemLine(item: PlanItem): string {
  const turn = item.turn === null ? '' : ` (turn ${item.turn.n} of ${item.turn.of})`;
  return `  ${padded(item.title + turn)} ${minutesInWords(item.minutes).padStart(8)}  ${item.reason}`;
}

/** What of the day was played, part by part; nothing before the first block. */
function doneLines({ parts, load }: DayView): readonly string[] {
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

export function planLines(plan: Plan, day: DayView): readonly string[] {
  const left = plan.leftOut.map(({ title, reason }) => `  ${padded(title)} ${reason}`);
  return [
    ...plan.items.map(itemLine),
    `  ${padded('')} ${minutesInWords(Math.round(totalMinutes(plan.items) * 2) / 2).padStart(8)}`,
    ...(plan.materials.length === 0
      ? []
      : ['', 'On the stand:', ...plan.materials.map((one) => `  ${harmless(one, 200)}`)]),
    ...(left.length === 0 ? [] : ['', 'Left out:', ...left]),
    ...doneLines(day),
    ...plan.sentences,
  ];
}
