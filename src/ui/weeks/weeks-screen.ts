/** The weeks: which page of them shows. */
import type { WeeksPage } from '../../practice/weeks/weeks-place.ts';
import type { DrawScreen } from '../screens/screen.ts';
import { bestsPage } from './bests-page.ts';
import { coveragePage } from './coverage-page.ts';
import { linePage } from './line-page.ts';
import { linesPage } from './lines-page.ts';
import { minutesPage } from './minutes-page.ts';

const PAGES: Readonly<Record<WeeksPage, DrawScreen<'weeks'>>> = {
  lines: linesPage,
  line: linePage,
  coverage: coveragePage,
  minutes: minutesPage,
  bests: bestsPage,
};

export const weeksScreen: DrawScreen<'weeks'> = (stand, canvas) => PAGES[stand.view.page](stand, canvas);
