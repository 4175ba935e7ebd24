import { routineNamed } from '../../files/routine-by-name.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { printJson, printLines } from '../../output/print.ts';
import { routineLines } from '../../output/routine-listing.ts';

export interface ShowOptions extends DataOption {
  readonly json?: boolean;
}

export async function showRoutine(name: string, options: ShowOptions): Promise<void> {
  const routine = await routineNamed(dataFolderOf(options), name);
  if (options.json) printJson(routine);
  else printLines(routineLines(routine));
}
