/** What stands in the settings file, checked: a mistake is named and left out, and everything else counts. */
import { z } from 'zod';
import { harmless } from '../../common/harmless-text.ts';
import { didYouMean } from '../../common/nearest-word.ts';
import { type Path, wrongValue } from '../../plan/file/place-in-file.ts';
import { ACTIONS } from './own-keys.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings-defaults.ts';
import { SETTINGS } from './settings-table.ts';

export interface Mistake {
  readonly path: Path;
  /** Whether the name is wrong or its value. */
  readonly at: 'key' | 'value';
  readonly sentence: string;
}

export interface CheckedSettings {
  readonly settings: Settings;
  readonly mistakes: readonly Mistake[];
}

type Issue = z.core.$ZodIssue;
type Group = Readonly<Record<PropertyKey, unknown>>;

const ROWS = Object.entries(SETTINGS);

const FILE = z.strictObject(Object.fromEntries(ROWS.map(([, { name, check }]) => [name, check.optional()])));

const NAMES: Readonly<Record<string, readonly string[]>> = {
  '': ROWS.map(([, { name }]) => name),
  volume: Object.keys(DEFAULT_SETTINGS.volume),
  keys: ACTIONS,
};

function unknownName(path: Path, name: string): Mistake {
  const known = NAMES[path.join('/')] ?? [];
  const hint = didYouMean(name, known, `known are ${known.join(', ')}.`);
  return {
    path: [...path, name],
    at: 'key',
    sentence: `there is no setting '${harmless(name, 40)}' here; ${hint}`,
  };
}

const isGroup = (value: unknown): value is Group => typeof value === 'object' && value !== null;

/** The value at a path, and as much of the path as is written: a single key is checked as if it stood in a list. */
function writtenAt(value: unknown, path: Path, from = 0): { readonly value: unknown; readonly path: Path } {
  const name = path[from];
  if (name === undefined || !isGroup(value)) return { value, path: path.slice(0, from) };
  return writtenAt(value[name], path, from + 1);
}

const NO_SETTINGS = 'the file holds no settings; write each as a name, a colon and a value.';

function mistakesOf(issue: Issue, file: unknown): readonly Mistake[] {
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownName(issue.path, key));
  const { value, path } = writtenAt(file, asWritten(issue.path, file));
  const isSentence = issue.code === 'custom' && issue.params?.['whole'] === true;
  const said = isSentence ? issue.message : wrongValue(path, value, issue.message);
  return [{ path, at: 'value', sentence: path.length === 0 ? NO_SETTINGS : said }];
}

/** What a setting was called before; a file that says so still counts. */
const OLD_NAMES: ReadonlyMap<string, string> = new Map([['tap offset', 'sound delay']]);

/** The file with its old names replaced, where the new one does not stand there too. */
function withNewNames(file: unknown): unknown {
  if (!isGroup(file) || Array.isArray(file)) return file;
  const named = Object.entries(file).map(([name, value]) => {
    const now = OLD_NAMES.get(name);
    return [now === undefined || Object.hasOwn(file, now) ? name : now, value] as const;
  });
  return Object.fromEntries(named);
}

/** A path as the file itself has it. */
function asWritten([name, ...rest]: Path, file: unknown): Path {
  const old = [...OLD_NAMES].find(([, now]) => now === name)?.[0];
  if (name === undefined) return [];
  return old !== undefined && isGroup(file) && !Object.hasOwn(file, name) ? [old, ...rest] : [name, ...rest];
}

function without(group: Group, [name, ...rest]: Path): Group {
  const kept = Object.entries(group).flatMap(([key, value]) => {
    if (key !== name) return [[key, value] as const];
    return rest.length > 0 && isGroup(value) ? [[key, without(value, rest)] as const] : [];
  });
  return Object.fromEntries(kept);
}

/** What a mistake takes with it: its setting; of levels and keys only the one that it is about. */
const spoilt = ({ path }: Mistake): Path => path.slice(0, 2);

const settingsOf = (checked: Group): Settings => {
  const written = ROWS.filter(([, { name }]) => checked[name] !== undefined);
  return { ...DEFAULT_SETTINGS, ...Object.fromEntries(written.map(([field, { name }]) => [field, checked[name]])) };
};

/** The settings in a parsed file; `null` is an empty one. */
export function checkSettings(file: unknown): CheckedSettings {
  const result = FILE.safeParse(withNewNames(file) ?? {});
  if (result.success) return { settings: settingsOf(result.data), mistakes: [] };
  const mistakes = result.error.issues.flatMap((issue) => mistakesOf(issue, file));
  if (!isGroup(file) || Array.isArray(file)) return { settings: DEFAULT_SETTINGS, mistakes };
  const rest = checkSettings(mistakes.map(spoilt).reduce(without, file));
  return { settings: rest.settings, mistakes: [...mistakes, ...rest.mistakes] };
}
