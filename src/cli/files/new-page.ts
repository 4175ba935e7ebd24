/** A page written where the player said; what is there already is only replaced when that was asked for. */
import { reasonOf } from '../../common/file-reasons.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';
import { createFile, replaceFile } from '../../disk/whole-file.ts';

const write = (path: string, text: string, force: boolean): void =>
  force ? replaceFile(path, text, undefined, { mode: 0o600 }) : createFile(path, text, { mode: 0o600 });

/** @throws Trouble where it cannot be written, or something has the name. */
export function writePage(path: string, text: string, force: boolean): void {
  try {
    write(path, text, force);
  } catch (error) {
    const shown = harmless(path, 200);
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      throw new Trouble(`${shown} is there already; choose another name, or add --force to replace it.`);
    throw new Trouble(`${shown} cannot be written: ${reasonOf(error, 'write')}.`);
  }
}

/** On stdout where it goes on to another program or a file. @throws Trouble on a terminal without a place for it. */
export function givePage(
  text: string,
  { out, force = false }: { readonly out?: string; readonly force?: boolean },
): void {
  if (out !== undefined) {
    writePage(out, text, force);
    process.stdout.write(`${harmless(out, 200)}: written\n`);
  } else if (process.stdout.isTTY) throw new Trouble('Say where the page is to go: --out FILE.html.', 2);
  else process.stdout.write(text);
}
