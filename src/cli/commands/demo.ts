/** The program on half a year of a player who does not exist. */
import { systemClock } from '../../runtime/clock.ts';
import { openDemoFolder } from '../../runtime/demo/demo-folder.ts';
import { numberOption, wholeNumber } from '../options/number-option.ts';

const MOST_SEEDS = 1_000_000;

/** A throw-away data folder for the program to run on. */
export async function demoFolder(seed: string): Promise<string> {
  const number = numberOption(seed, { option: 'seed', ...wholeNumber(0, MOST_SEEDS) });
  return openDemoFolder(systemClock, number);
}
