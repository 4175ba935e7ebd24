/** Which drawing shows each screen. */
import type { Screen, Stand } from '../../practice/stand.ts';
import type { PaintedLine } from '../paint.ts';
import { blockScreen } from './block-screen.ts';
import { endScreen } from './end-screen.ts';
import { exercisesScreen } from './exercises-screen.ts';
import { gridScreen } from '../practice/grid-screen.ts';
import { practiceScreen } from '../practice/practice-screen.ts';
import type { Canvas, DrawScreen } from './screen.ts';
import { settingsScreen } from './settings-screen.ts';
import { todayScreen } from './today-screen.ts';
import { waysScreen } from './ways-screen.ts';
import { weeksScreen } from './weeks-screen.ts';

const SCREENS: { readonly [S in Screen]: DrawScreen<S> } = {
  today: todayScreen,
  exercises: exercisesScreen,
  practice: practiceScreen,
  grid: gridScreen,
  block: blockScreen,
  end: endScreen,
  ways: waysScreen,
  weeks: weeksScreen,
  settings: settingsScreen,
};

/** The compiler does not see that a row and its view belong together; the table's type does. */
export const drawScreen = (stand: Stand, canvas: Canvas): readonly PaintedLine[] =>
  (SCREENS[stand.view.screen] as DrawScreen<Screen>)(stand, canvas);
