/** Which drawing shows each screen. */
import type { PictureScreen, Screen, Stand } from '../../practice/stand.ts';
import type { PaintedLine } from '../paint.ts';
import { blockScreen } from './block-screen.ts';
import { endScreen } from './end-screen.ts';
import { exercisesScreen } from './exercises-screen.ts';
import { firstScreen } from './first-screen.ts';
import { gridScreen } from '../practice/grid-screen.ts';
import { practiceScreen } from '../practice/practice-screen.ts';
import type { Canvas, DrawScreen } from './screen.ts';
import { settingsScreen } from './settings-screen.ts';
import { todayScreen } from './today-screen.ts';
import { waysScreen } from './ways-screen.ts';
import { weeksScreen } from '../weeks/weeks-screen.ts';

const SCREENS: { readonly [S in PictureScreen]: DrawScreen<S> } = {
  today: todayScreen,
  first: firstScreen,
  exercises: exercisesScreen,
  practice: practiceScreen,
  grid: gridScreen,
  block: blockScreen,
  end: endScreen,
  ways: waysScreen,
  weeks: weeksScreen,
  settings: settingsScreen,
};

/** The compiler does not see that a row and its view belong together; the table's type does. Forms are no pictures. */
export const drawScreen = (stand: Stand, canvas: Canvas): readonly PaintedLine[] =>
  (SCREENS as Partial<Record<Screen, DrawScreen<Screen>>>)[stand.view.screen]?.(stand, canvas) ?? [];
