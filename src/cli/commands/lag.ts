import type { TapResult } from '../../audio/tap-offset.ts';
import { Trouble } from '../../common/trouble.ts';
import { type TapTest, runTapTest, terminalKeys } from '../../runtime/tap-test.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson, printLines } from '../output/print.ts';

export interface LagOptions extends DataOption {
  readonly json?: boolean;
}

const INVITATION = 'Tap any key with each click, as evenly as you can: 20 clicks. Ctrl-C breaks off.\n';

/** As shells count a program that Ctrl-C ended. */
const BROKEN_OFF = 130;

/** @throws Trouble that says why there is no result. */
function resultOf(test: TapTest | null): TapResult {
  if (!test) throw new Trouble('The tap test was broken off; nothing has changed.', BROKEN_OFF);
  if (!test.heard) throw new Trouble("There is no sound to tap to; 'standside sound' tells why.");
  if (test.result) return test.result;
  throw new Trouble('Too few taps came near the clicks, or they were too uneven. Nothing has changed; try once more.');
}

const linesOf = ({ offset, spread, used }: TapResult, folder: string): readonly string[] => [
  `Your taps come ${Math.abs(offset)} ms ${offset < 0 ? 'before' : 'after'} the click (${used} taps, ` +
    `give or take ${spread} ms).`,
  `To let the picture follow, put this line into settings.yaml in ${folder}:`,
  '',
  `sound delay: ${offset}`,
];

export async function lag(options: LagOptions): Promise<void> {
  if (!process.stdin.isTTY)
    throw new Trouble('The tap test listens for keys and needs a terminal; here the input is not one.', 2);
  const folder = dataFolderOf(options);
  const settings = await playersSettings(folder);
  process.stderr.write(INVITATION);
  const result = resultOf(await runTapTest(settings, terminalKeys(process.stdin)));
  if (options.json) printJson({ 'sound delay': result.offset, spread: result.spread, used: result.used });
  else printLines(linesOf(result, folder.path));
}
