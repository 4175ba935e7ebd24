/** The player's own files at work: exercises kept and retired, drafts, and files that an editor changes meanwhile. */
import { basename, join } from 'node:path';
import { createFile } from '../../disk/whole-file.ts';
import { makeFolder } from '../files/data-folder.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import type { Milliseconds } from '../../common/units.ts';
import type { FileChange, Keeping } from '../../plan/own/own-file.ts';
import type { Draft, OwnAnswer, OwnAsked, OwnPlace } from '../../practice/screens/own-asked.ts';
import type { ReadAnew } from '../../practice/stand.ts';
import { routinesStamp } from '../files/routine-cache.ts';
import { routineFiles } from '../files/routine-finder.ts';
import { Trouble } from '../../common/trouble.ts';
import { changeFile } from './file-changed-once.ts';
import { type DraftKeeper, draftKeeper } from './draft-file.ts';

/** What came of it, and the files as they are now. */
export interface CarriedOut {
  readonly answer: OwnAnswer;
  readonly read: ReadAnew | null;
}

export interface OwnFiles {
  readonly carryOut: (asked: OwnAsked) => Promise<CarriedOut>;
  readonly draft: (draft: Draft | null) => void;
  /** Calls back whenever a routine file has changed, until the returned function is called. */
  readonly watch: (call: (read: ReadAnew) => void) => () => void;
  /** What still waits is written now. */
  readonly finish: () => void;
}

export interface OwnFilesParts {
  readonly dataFolder: string;
  /** All routines as they are on the disk now. */
  readonly read: () => Promise<ReadAnew>;
  /** Names under which something is kept or written already. */
  readonly taken: () => Promise<ReadonlySet<string>>;
  readonly log: (text: string) => void;
}

/** Rarely enough to cost nothing, often enough that nobody waits for it. */
const LOOK_EVERY: Milliseconds = 2000;

const folderOf = ({ dataFolder }: OwnFilesParts): string => join(dataFolder, 'routines');

/** The file of an exercise of one's own; a new one goes into the file of its own. */
function pathOf(parts: OwnFilesParts, file: string): string {
  const folder = folderOf(parts);
  const names = [`${file}.yaml`, `${file}.yml`].map((name) => join(folder, name));
  return routineFiles([folder]).find((path) => names.includes(path)) ?? (names[0] as string);
}

const filesIn = (parts: OwnFilesParts): readonly string[] =>
  routineFiles([folderOf(parts)]).map((path) => basename(path).replace(/\.ya?ml$/, ''));

const failed = (sentence: string): CarriedOut => ({ answer: { sentence, written: null }, read: null });

type Change = (text: string, fileName: string) => FileChange;

async function written(parts: OwnFilesParts, file: string, change: Change): Promise<CarriedOut> {
  let last: FileChange = { wrong: '' };
  const path = pathOf(parts, file);
  changeFile(path, (text) => {
    last = change(text, path.slice(folderOf(parts).length + 1));
    return 'wrong' in last ? null : last.text;
  });
  const done = last as FileChange;
  if ('wrong' in done) return failed(done.wrong);
  return { answer: { sentence: done.sentence, written: { file, name: done.name } }, read: await parts.read() };
}

/** The YAML and schema libraries are loaded when something is written, not at a start. */
const library = () =>
  Promise.all([
    import('../../plan/own/own-file.ts'),
    import('../../plan/own/new-name.ts'),
    import('../files/routine-reader.ts'),
    import('./copied-from.ts'),
  ]);

const GONE = ' What it was a copy of is no longer there, so it has what the form shows.';

const withMore = (done: CarriedOut, more: string): CarriedOut =>
  done.answer.written ? { ...done, answer: { ...done.answer, sentence: done.answer.sentence + more } } : done;

async function keep(parts: OwnFilesParts, { fields, start, of, copied: from }: Draft): Promise<CarriedOut> {
  const [{ OWN_FILE, keptIn }, { newName }, { includeFrom }, { copiedFrom }] = await library();
  const fresh = newName(fields.title, await parts.taken());
  const copied = from && !of ? copiedFrom(from, parts.dataFolder) : null;
  const keeping: Keeping = {
    name: of?.name ?? fresh,
    before: of ? start : null,
    form: fields,
    history: of?.name ?? fresh,
    beside: { name: fresh, history: fresh },
    copied,
  };
  const include = includeFrom(folderOf(parts));
  const done = await written(parts, of?.file ?? OWN_FILE, (text, name) => keptIn(text, name, keeping, include));
  return from && !of && !copied ? withMore(done, GONE) : done;
}

async function retire(parts: OwnFilesParts, { file, name }: OwnPlace, isRetired: boolean): Promise<CarriedOut> {
  const [{ retiredIn }, , { includeFrom }] = await library();
  return written(parts, file, (text, fileName) =>
    retiredIn(text, fileName, name, isRetired, includeFrom(folderOf(parts))),
  );
}

/** A new file of the list's own name; one that is there already stays what it is. */
async function keepRoutine(parts: OwnFilesParts, asked: Extract<OwnAsked, { do: 'routine' }>): Promise<CarriedOut> {
  const [{ mistakeOf }, { newName }, { includeFrom }] = await library();
  const { listFileText } = await import('../../plan/own/list-file.ts');
  const { exercises, routines } = await parts.read();
  const name = newName(asked.title, new Set([...routines.map(({ id }) => id), ...filesIn(parts)]), 'list');
  const text = listFileText(asked.title, asked.instrument, asked.items, exercises);
  const wrong = mistakeOf(text, `${name}.yaml`, includeFrom(folderOf(parts)));
  if (wrong) return failed(wrong);
  makeFolder(folderOf(parts));
  createFile(join(folderOf(parts), `${name}.yaml`), text);
  const sentence = `${asked.title}: kept as a routine; r on Today chooses it.`;
  return { answer: { sentence, written: null }, read: await parts.read() };
}

const DOING = 'The file could not be written, and what you typed is kept here';

async function carriedOut(parts: OwnFilesParts, asked: OwnAsked): Promise<CarriedOut> {
  try {
    if (asked.do === 'routine') return await keepRoutine(parts, asked);
    return await (asked.do === 'keep' ? keep(parts, asked.draft) : retire(parts, asked.place, asked.isRetired));
  } catch (error) {
    if (error instanceof Trouble) return failed(error.message);
    const { code } = error as NodeJS.ErrnoException;
    parts.log(String(error));
    return failed(`${DOING}: ${code ? reasonOf(error, 'write') : (error as Error).message}.`);
  }
}

/** Looks at the files' times and sizes; what is half written has a mistake in it and is read again when it is whole. */
function watching(parts: OwnFilesParts, call: (read: ReadAnew) => void): () => void {
  let stamp = routinesStamp(parts.dataFolder);
  const look = async (): Promise<void> => {
    try {
      const now = routinesStamp(parts.dataFolder);
      if (now === stamp) return;
      stamp = now;
      call(await parts.read());
    } catch (error) {
      parts.log(`the routines could not be read again: ${String(error)}`);
    }
  };
  const timer = setInterval(() => void look(), LOOK_EVERY);
  timer.unref();
  return () => clearInterval(timer);
}

export function openOwnFiles(parts: OwnFilesParts): OwnFiles {
  const drafts: DraftKeeper = draftKeeper(parts.dataFolder, parts.log);
  return {
    carryOut: (asked) => carriedOut(parts, asked),
    draft: drafts.keep,
    watch: (call) => watching(parts, call),
    finish: drafts.finish,
  };
}
