/** The whole picture for a size of terminal: the screen that shows, its keys, or the page of keys. */
import type { Lettering } from '../music/page/strip.ts';
import { cellsOf } from '../plan/rotation/turn-asked.ts';
import { isRunning } from '../practice/line/line-state.ts';
import { exerciseNow, itemNow, leftOpen, narrowedNow } from '../practice/sitting/sitting.ts';
import { type PictureScreen, type Stand, practiceOf } from '../practice/stand.ts';
import { foot } from './components/foot-line.ts';
import type { Circumstance, KeyRow } from './keys.ts';
import { type PaintedLine, fit, toHeight } from './paint.ts';
import { inPlainLetters } from './plain-letters.ts';
import { drawScreen } from './screens/all-screens.ts';
import { withoutBeat } from './still-beat.ts';
import { SMALLEST, compactScreen } from './screens/compact-screen.ts';
import { helpScreen } from './screens/help-screen.ts';
import type { On } from './screens/screen.ts';

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

const isGoing = (stand: Stand): boolean => {
  const practice = practiceOf(stand);
  if (practice) return isRunning(practice);
  return stand.view.screen === 'block' && stand.sitting?.run.phase === 'playing';
};

/** Whether there is a key for a drone here, another key, another way of tonguing: not in a rest. */
function toChooseFrom(stand: Stand): readonly Circumstance[] {
  const { view } = stand;
  const exercise = practiceOf(stand)?.exercise ?? (view.screen === 'block' && view.tone ? exerciseNow(stand) : null);
  if (view.screen === 'exercises') return ['ways of tonguing'];
  if (!exercise) return [];
  const narrowed = narrowedNow(stand);
  const { keys, articulations } = cellsOf({ exercise, narrowed, today: stand.known.today });
  return [
    'a key',
    ...(keys.length > 1 ? (['keys'] as const) : []),
    ...(articulations.length > 1 ? (['ways of tonguing'] as const) : []),
  ];
}

/** What some keys wait for. */
export const circumstances = (stand: Stand): readonly Circumstance[] => [
  ...(stand.sitting ? (['sitting'] as const) : []),
  ...(isGoing(stand) ? (['running'] as const) : []),
  ...(itemNow(stand)?.breaths ? (['breaths'] as const) : []),
  ...(stand.view.screen === 'today' && leftOpen(stand) ? (['left open'] as const) : []),
  ...toChooseFrom(stand),
];

/** Where one types, Ink's own components draw; the page of keys is a picture everywhere. */
export const isForm = ({ view, help }: Pick<Stand, 'view' | 'help'>): boolean =>
  view.screen === 'form' || (view.screen === 'list' && !help);

const isPicture = (stand: Stand): stand is On<PictureScreen> =>
  stand.view.screen !== 'form' && stand.view.screen !== 'list';

function inSigns(stand: Stand, keys: readonly KeyRow[], { columns, rows }: Size, lettering: Lettering) {
  const now = circumstances(stand);
  if (stand.help && stand.view.screen !== 'form') return helpScreen(keys, stand.view.screen, now, columns, rows);
  if (!isPicture(stand)) return [];
  const { screen } = stand.view;
  const canvas = { columns, rows, lettering, keys, foot: foot(keys, screen, now, columns) };
  const isSmall = columns < SMALLEST.columns || rows < SMALLEST.rows;
  return isSmall ? compactScreen(stand, canvas) : drawScreen(stand, canvas);
}

/** Exactly so many lines, none wider than the terminal; ASCII only where the lettering is plain. */
export function wholeScreen(
  stand: Stand,
  keys: readonly KeyRow[],
  size: Size,
  lettering: Lettering,
  isStill = false,
): readonly PaintedLine[] {
  const drawn = toHeight(inSigns(isStill ? withoutBeat(stand) : stand, keys, size, lettering), size.rows).map((one) =>
    fit(one, size.columns),
  );
  return lettering === 'plain' ? drawn.map(inPlainLetters) : drawn;
}
