/** The weeks: which page of them shows. */
import type { WeeksPage } from '../../practice/screens/weeks-place.ts';
import type { DrawScreen } from '../screens/screen.ts';
import { linesPage } from './lines-page.ts';

const PAGES: Readonly<Record<WeeksPage, DrawScreen<'weeks'>>> = {
  lines: linesPage,
  line: linesPage,
  coverage: linesPage,
  minutes: linesPage,
  bests: linesPage,
};

export const weeksScreen: DrawScreen<'weeks'> = (stand, canvas) => PAGES[stand.view.page](stand, canvas);
