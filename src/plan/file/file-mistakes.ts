/** Checks a file's plain value against the written form and turns what is wrong into sentences. */
import { type FileTrouble, type Path, called, named, shown, wrongValue } from './place-in-file.ts';
import type { z } from 'zod';
import { BY_SHARP, cutByComma, patternPaths } from './cut-off-patterns.ts';
import { harmless } from '../../common/harmless-text.ts';
import { didYouMean } from '../../common/nearest-word.ts';
import { BLOCK_KEYS, Defaults, ROTATION_KEYS, WrittenExercise, WrittenPart, WrittenRoutine } from './routine-schema.ts';
import type { YamlText } from './yaml-places.ts';

type Issue = z.core.$ZodIssue;

/** What stands at a path, in words, and what may be said there. First match wins. */
const PLACES: readonly (readonly [RegExp, string, readonly string[]])[] = [
  [/^$/, 'a routine file', Object.keys(WrittenRoutine.shape)],
  [/click\/levels$/, "a click's levels", ['bar', 'group', 'beat', 'subdivision']],
  [/click\/silent bars$/, 'the silent bars', ['play', 'silent']],
  [/click$/, 'a click', ['on', 'subdivision', 'feel', 'voice', 'levels', 'silent bars', 'silent chance']],
  [/rotate$/, 'a rotation', ROTATION_KEYS],
  [/each breath$/, 'each breath', ['out', 'wait', 'back']],
  [/drone$/, 'a drone', ['voices', 'tuning', 'timbre', 'octave']],
  [/^defaults$/, 'the defaults', Object.keys(Defaults.shape)],
  [/^exercises\/[^/]+$/, 'an exercise', Object.keys(WrittenExercise.shape)],
  [/^pools\/[^/]+$/, 'a pool', ['title', 'every', 'items']],
  [/^limits$/, 'the limits', ['same kind', 'high load']],
  [/^parts\/\d+$/, 'a part', Object.keys(WrittenPart.shape)],
  [/^parts\/\d+\/blocks\/\d+$/, 'a block', BLOCK_KEYS],
];

const placeNamed = (path: Path) => PLACES.find(([pattern]) => pattern.test(path.join('/'))) ?? PLACES[0];

const valueAt = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((at, name) => (at as Record<PropertyKey, unknown> | null | undefined)?.[name], value);

/** How far a branch of a union is from what was written: a name that is not there weighs more than a wrong value. */
const weight = (issues: readonly Issue[]): number =>
  issues.reduce(
    (sum, { code, path }) =>
      sum + (code === 'unrecognized_keys' || code === 'invalid_key' ? 20 : path.length === 0 ? 10 : 1),
    0,
  );

/** The issues behind a union's: those of its nearest branch, if that one got beyond the first look. */
function opened(issue: Issue): readonly Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const branch = [...issue.errors].sort((a, b) => weight(a) - weight(b))[0] ?? [];
  if (branch.every(({ code, path }) => path.length === 0 && code !== 'unrecognized_keys')) return [issue];
  return branch.flatMap((inner) => opened({ ...inner, path: [...issue.path, ...inner.path] } as Issue));
}

function unknownName(path: Path, name: string): string {
  const cut = cutByComma(path, name);
  if (cut !== null) return cut;
  const [, where, names] = placeNamed(path) ?? [/^/, 'this place', []];
  const right = didYouMean(name, names, `what may stand there is ${names.slice(0, 13).join(', ')}.`);
  return `there is no '${harmless(name, 40)}' in ${where}; ${right}`;
}

/** What would be right: in the schema's own words, but a group of settings is told by what may stand in it. */
function rightFor(issue: Issue): string {
  if (issue.code !== 'invalid_type' || issue.expected !== 'object') return issue.message;
  const [, , names] = placeNamed(issue.path) ?? [/^/, '', []];
  return `settings by their names, like ${names.slice(0, 2).join(' and ')}`;
}

function saidOf(issue: Issue, value: unknown): string {
  if (issue.code === 'invalid_key') {
    return `${called(issue.path)} is no name that can be used; write ${issue.issues[0]?.message ?? 'another'}.`;
  }
  if (value === undefined) return `${called(issue.path)} is missing; write ${rightFor(issue)}.`;
  return wrongValue(issue.path, value, rightFor(issue));
}

/** A block of one unknown name is the short form, so what is wrong is its value. */
const isShortBlock = (path: Path, value: unknown): boolean =>
  path.at(-2) === 'blocks' && typeof value === 'object' && value !== null && Object.keys(value).length === 1;

function troublesOf(issue: Issue, yaml: YamlText, file: string): readonly FileTrouble[] {
  if (issue.code === 'unrecognized_keys' && isShortBlock(issue.path, valueAt(yaml.value, issue.path))) {
    const [name = ''] = issue.keys;
    const path = [...issue.path, name];
    const sentence =
      `'${harmless(name, 40)}' is ${shown(valueAt(yaml.value, path))}; write its minutes, from ` + `0.5 to 240.`;
    return [{ file, ...yaml.place(path), sentence }];
  }
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      file,
      ...yaml.place([...issue.path, key], 'key'),
      sentence: unknownName(issue.path, key),
    }));
  }
  const which = issue.code === 'invalid_key' ? 'key' : 'value';
  return [{ file, ...yaml.place(issue.path, which), sentence: saidOf(issue, valueAt(yaml.value, issue.path)) }];
}

/** By its path, every pattern that a sharp cuts off; what is left of it is not worth a sentence of its own. */
function cutPatterns(yaml: YamlText, file: string): ReadonlyMap<string, FileTrouble> {
  return new Map(
    patternPaths(yaml.value).flatMap((path) => {
      const place = yaml.cut(path);
      return place === null ? [] : [[path.join('/'), { file, ...place, sentence: BY_SHARP }] as const];
    }),
  );
}

/** The value in the written form, or a sentence for each thing that is wrong with it. */
export function checkWritten(
  yaml: YamlText,
  file: string,
): { readonly written: WrittenRoutine } | { readonly troubles: readonly FileTrouble[] } {
  if (yaml.value === null) {
    return {
      troubles: [{ file, line: 1, column: 1, sentence: "the file is empty; begin with 'routine: ' and a title." }],
    };
  }
  if (typeof yaml.value !== 'object' || Array.isArray(yaml.value)) {
    const sentence =
      `the file is ${shown(yaml.value)}; write settings by their names, beginning with 'routine: ` + `' and a title.`;
    return { troubles: [{ file, line: 1, column: 1, sentence }] };
  }
  const cuts = cutPatterns(yaml, file);
  const result = WrittenRoutine.safeParse(yaml.value);
  if (result.success) return cuts.size === 0 ? { written: result.data } : { troubles: [...cuts.values()] };
  const issues = result.error.issues.flatMap(opened).filter(({ path }) => !cuts.has(path.join('/')));
  return { troubles: named([...cuts.values(), ...issues.flatMap((issue) => troublesOf(issue, yaml, file))]) };
}
