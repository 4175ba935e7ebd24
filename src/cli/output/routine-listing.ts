/** A routine as lines for the terminal. */
import { harmless } from '../../common/harmless-text.ts';
import { minutesInWords } from '../../common/time-words.ts';
import { type Block, type Minutes, type Part, type Routine, blocksOf } from '../../plan/routine/routine.ts';
import { plural } from './plural.ts';
import { titleColumn } from './title-column.ts';

const minutesOf = (blocks: readonly Block[]): Minutes => blocks.reduce((sum, { minutes }) => sum + minutes, 0);

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
  `    ${titleColumn(block.title)} ${minutesInWords(block.minutes).padStart(8)}  ${remarks(block)}`.trimEnd();

const partLines = ({ title, blocks }: Part): readonly string[] => [
  `  ${harmless(title)}, ${minutesInWords(minutesOf(blocks))}`,
  ...blocks.map(blockLine),
];

/** `summaryLine(routine)` is 'cornet-daily: 5 parts, 12 blocks, 13 exercises, 71 min'. */
export const summaryLine = (routine: Routine): string =>
  `${routine.id}: ${plural(routine.parts.length, 'part')}, ${plural(blocksOf(routine).length, 'block')}, ` +
  `${plural(routine.exercises.length, 'exercise')}, ${minutesInWords(minutesOf(blocksOf(routine)))}`;

function aboutLines({ about }: Routine): readonly string[] {
  const text = about.trim();
  return text === '' ? [] : text.split('\n').map((line) => harmless(line, 200));
}

function limitsLine({ breaks, limits }: Routine): string {
  const rests = breaks === null ? 'none' : `${breaks.minutes} min after ${breaks.after}`;
  return (
    `rests: ${rests}; at most ${limits.sameKind} blocks of a kind in a row, ` +
    `${minutesInWords(limits.highLoad)} of high load together`
  );
}

const poolLines = ({ pools }: Routine): readonly string[] =>
  pools.map(({ id, items, everyDays }) => `pool ${id}: ${items.join(', ')}; each within ${everyDays} days`);

export const routineLines = (routine: Routine): readonly string[] => [
  `${harmless(routine.title)} (${routine.instrument})`,
  ...aboutLines(routine),
  '',
  ...routine.parts.flatMap(partLines),
  '',
  limitsLine(routine),
  ...poolLines(routine),
];
