import { Trouble } from '../../../common/trouble.ts';
import { INSTRUMENTS, instrumentNamed } from '../../../music/pitch/instruments.ts';
import { shown } from '../../../plan/file/place-in-file.ts';
import { writeNewRoutine } from '../../../runtime/files/new-routine-file.ts';
import { isFileName } from '../../files/routine-file-name.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { didYouMean } from '../../../common/nearest-word.ts';
import { printLines } from '../../output/print.ts';
import { newRoutineText } from './new-routine-template.ts';

export interface NewOptions extends DataOption {
  readonly instrument: string;
  readonly title?: string;
  readonly force?: boolean;
}

/** Its short name. @throws Trouble that suggests the nearest. */
function instrumentOf(name: string): string {
  const found = instrumentNamed(name);
  if (found !== null) return found.id;
  const known = INSTRUMENTS.map(({ id }) => id);
  const hint = didYouMean(name, known, `it is one of ${known.join(', ')}.`);
  throw new Trouble(`--instrument is ${shown(name)}, which is not known; ${hint}`);
}

/** A bare name becomes a file in the player's own folder. */
export function newRoutine(name: string, options: NewOptions): void {
  const { title, force = false } = options;
  const instrument = instrumentOf(options.instrument);
  const folder = isFileName(name) ? null : dataFolderOf(options).routines;
  const path = writeNewRoutine(name, folder, (stem) => newRoutineText(title ?? stem, instrument), force);
  printLines([`${path} is written; 'standside routine check ${path}' tells whether it is still sound after a change.`]);
}
