import { Trouble } from '../../../common/trouble.ts';
import { type FileTrouble, shown, troubleLine } from '../../../plan/file/place-in-file.ts';
import { routineFiles, routineFolders, stemOf } from '../../../runtime/files/routine-finder.ts';
import { readRoutineAmong } from '../../../runtime/files/routine-reader.ts';
import { isFileName } from '../../files/routine-file-name.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { didYouMean } from '../../../common/nearest-word.ts';
import { complain, printJson, printLines } from '../../output/print.ts';
import { summaryLine } from '../../output/routine-listing.ts';
import { remarksOn } from '../../../plan/file/file-remarks.ts';

export interface CheckOptions extends DataOption {
  readonly json?: boolean;
}

interface Checked {
  readonly file: string;
  readonly sound: boolean;
  readonly summary: string;
  /** What is worth a word in a file that is sound. */
  readonly remarks: readonly string[];
  readonly troubles: readonly FileTrouble[];
}

const ownAndPackaged = (options: CheckOptions): readonly string[] =>
  routineFiles(routineFolders(dataFolderOf(options).path));

/** A bare name is looked for where `show` and `fit` look for it, whether its file is sound or not. */
function filesNamed(names: readonly string[], files: readonly string[]): readonly string[] {
  const byName = new Map(files.toReversed().map((file) => [stemOf(file), file]));
  return names.map((name) => {
    const found = isFileName(name) ? name : byName.get(name);
    if (found !== undefined) return found;
    const known = [...byName.keys()];
    throw new Trouble(
      `There is no routine ${shown(name)}; ${didYouMean(name, known, `there are ${known.join(', ')}.`)}`,
    );
  });
}

function filesToCheck(names: readonly string[], options: CheckOptions): readonly string[] {
  if (names.length === 0) return ownAndPackaged(options);
  return names.every(isFileName) ? names : filesNamed(names, ownAndPackaged(options));
}

function checked(file: string, _: number, files: readonly string[]): Checked {
  const parsed = readRoutineAmong(file, files);
  if ('troubles' in parsed) return { file, sound: false, summary: '', remarks: [], troubles: parsed.troubles };
  const { routine } = parsed;
  return { file, sound: true, summary: summaryLine(routine), remarks: remarksOn(routine), troubles: [] };
}

function print(all: readonly Checked[]): void {
  for (const { sound, summary, remarks } of all)
    if (sound) printLines([`sound  ${summary}`, ...remarks.map((line) => `  ${line}`)]);
  for (const { troubles } of all) for (const trouble of troubles) complain(troubleLine(trouble));
}

/** Exit code 1 where one of them cannot be used. */
export function checkRoutines(names: readonly string[], options: CheckOptions): void {
  const all = filesToCheck(names, options).map(checked);
  if (options.json) printJson(all);
  else print(all);
  if (all.some(({ sound }) => !sound)) process.exitCode = 1;
}
