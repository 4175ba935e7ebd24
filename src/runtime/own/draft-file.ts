/** What is being typed, on the disk until it is kept: a terminal that closes loses none of it. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Milliseconds } from '../../common/units.ts';
import { FIELDS, type OwnForm } from '../../plan/own/own-form.ts';
import type { Draft, OwnPlace } from '../../practice/screens/own-asked.ts';
import { replaceFile } from '../../disk/whole-file.ts';

/** A quick hand types several letters in this time. */
const SOON: Milliseconds = 150;

const fileIn = (folder: string): string => join(folder, 'draft.json');

const isText = (value: unknown): value is string => typeof value === 'string';

/** A form as it was kept; a field that is not there is empty. */
function formOf(value: unknown): OwnForm {
  const kept = (value ?? {}) as Readonly<Record<string, unknown>>;
  return Object.fromEntries(FIELDS.map((field) => [field, isText(kept[field]) ? kept[field] : ''])) as OwnForm;
}

function placeOf(value: unknown): OwnPlace | null {
  const { file, name } = (value ?? {}) as Readonly<Record<string, unknown>>;
  return isText(file) && isText(name) ? { file, name } : null;
}

/** Null where there is none, or nobody can read it. */
export function readDraft(folder: string): Draft | null {
  try {
    const kept = JSON.parse(readFileSync(fileIn(folder), 'utf8')) as Readonly<Record<string, unknown>>;
    const copied = placeOf(kept['copied']);
    const forms = { fields: formOf(kept['fields']), start: formOf(kept['start']) };
    return { ...forms, of: placeOf(kept['of']), ...(copied ? { copied } : {}) };
  } catch {
    return null;
  }
}

function write(folder: string, draft: Draft | null): void {
  if (draft === null) rmSync(fileIn(folder), { force: true });
  else replaceFile(fileIn(folder), JSON.stringify(draft));
}

export interface DraftKeeper {
  readonly keep: (draft: Draft | null) => void;
  /** What still waits is written now. */
  readonly finish: () => void;
}

/** Writes a little after the last letter; `trouble` hears why it could not. */
export function draftKeeper(folder: string, trouble: (text: string) => void): DraftKeeper {
  let timer: NodeJS.Timeout | undefined;
  let waiting: { readonly draft: Draft | null } | null = null;
  const finish = (): void => {
    clearTimeout(timer);
    const last = waiting;
    waiting = null;
    try {
      if (last) write(folder, last.draft);
    } catch (error) {
      trouble(`the draft could not be kept: ${String(error)}`);
    }
  };
  const keep = (draft: Draft | null): void => {
    waiting = { draft };
    clearTimeout(timer);
    timer = setTimeout(finish, SOON);
  };
  return { keep, finish };
}
