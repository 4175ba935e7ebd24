/**
 * Puts an exercise, or single settings of one, into a routine file's text. All else stays as the player wrote it, to
 * the letter: comments, order, blank lines. What comes out is read again before it is given back.
 */
import { type Document, type Pair, type YAMLMap, isAlias, isMap, isNode, isScalar, parseDocument, visit } from 'yaml';
import { withExerciseAdded } from './exercise-added.ts';
import { type Written, flowText, valueText } from './written-text.ts';
import { keepsComments } from './yaml-comments.ts';

/** By its name, what a setting is to be; null takes it out. */
export type Settings = Readonly<Record<string, Written | null>>;

type Plain = Record<string, unknown>;

const plain = (document: Document): Plain => (document.toJS({ maxAliasCount: 200 }) ?? {}) as Plain;

/** What the file is to say afterwards. */
function expected(before: Plain, name: string, settings: Settings): Plain {
  const exercises = { ...(before['exercises'] as Plain | null) };
  const exercise = { ...(exercises[name] as Plain | null) };
  for (const [setting, value] of Object.entries(settings)) {
    if (value === null) delete exercise[setting];
    else exercise[setting] = value;
  }
  return { ...before, exercises: { ...exercises, [name]: exercise } };
}

interface Cut {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** From the last to the first, so that places before a change stay right. */
const cutInto = (text: string, cuts: readonly Cut[]): string =>
  cuts
    .toSorted((a, b) => b.from - a.from || b.to - a.to)
    .reduce((t, c) => t.slice(0, c.from) + c.text + t.slice(c.to), text);

const rangeOf = (node: unknown): readonly [number, number] | null =>
  isNode(node) && node.range ? [node.range[0], node.range[1]] : null;

const pairNamed = (map: YAMLMap, name: string): Pair | undefined =>
  map.items.find(({ key }) => isScalar(key) && key.value === name);

/** The end of the line on which a place lies, its break not included. */
function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : text[end - 1] === '\r' ? end - 1 : end;
}

/** Where the value of the last setting ends: behind it, on its own line. */
export function endOfPair(text: string, pair: Pair | undefined): number | null {
  const range = rangeOf(pair?.value) ?? rangeOf(pair?.key);
  if (range === null) return null;
  const written = text.slice(0, Math.max(range[1], range[0])).trimEnd().length;
  return lineEnd(text, Math.max(written, range[0]));
}

/** Spaces before a name that begins its line; null where something else stands there. */
export function indentOf(text: string, { key }: Pair): string | null {
  const at = rangeOf(key)?.[0] ?? 0;
  const before = text.slice(text.lastIndexOf('\n', at - 1) + 1, at);
  return /^ *$/.test(before) ? before : null;
}

/** A setting taken out: its whole line, but for a comment that stands there. */
function takenOut(text: string, map: YAMLMap, pair: Pair): Cut | null {
  const [key, value] = [rangeOf(pair.key), rangeOf(pair.value)];
  if (!key || !value) return null;
  const end = text.slice(0, value[1]).trimEnd().length;
  if (map.flow) {
    const next = map.items[map.items.indexOf(pair) + 1];
    const before = map.items[map.items.indexOf(pair) - 1];
    if (next) return { from: key[0], to: rangeOf(next.key)?.[0] ?? end, text: '' };
    return { from: before ? (rangeOf(before.value)?.[1] ?? key[0]) : key[0], to: end, text: '' };
  }
  const rest = text.slice(end, lineEnd(text, end)).trim();
  const start = text.lastIndexOf('\n', key[0] - 1) + 1;
  return rest === ''
    ? { from: start, to: Math.min(text.length, text.indexOf('\n', end) + 1 || text.length), text: '' }
    : { from: key[0], to: end + text.slice(end).search(/#/), text: '' };
}

function changedValue(text: string, map: YAMLMap, pair: Pair, value: Written): Cut | null {
  const [key, range] = [rangeOf(pair.key), rangeOf(pair.value)];
  if (!key || !range || isAlias(pair.value)) return null;
  const written = map.flow ? flowText(value) : valueText(value);
  const to = text.slice(0, range[1]).trimEnd().length;
  // A list below its name comes up beside it.
  const isBelow = text.slice(key[1], to).includes('\n');
  return isBelow ? { from: key[1], to, text: `: ${written}` } : { from: range[0], to, text: written };
}

/** New settings, behind the last one. */
function addedTo(text: string, map: YAMLMap, added: readonly (readonly [string, Written])[], eol: string): Cut | null {
  if (added.length === 0) return { from: 0, to: 0, text: '' };
  const last = map.items.at(-1);
  if (map.flow) {
    const lines = added.map(([name, value]) => `${name}: ${flowText(value)}`).join(', ');
    const at = last ? (rangeOf(last.value)?.[1] ?? null) : (rangeOf(map)?.[0] ?? -1) + 1;
    return at === null ? null : { from: at, to: at, text: last ? `, ${lines}` : lines };
  }
  const indent = last ? indentOf(text, last) : null;
  const at = endOfPair(text, last);
  if (indent === null || at === null) return null;
  return {
    from: at,
    to: at,
    text: added.map(([name, value]) => `${eol}${indent}${name}: ${valueText(value)}`).join(''),
  };
}

/** By cutting into the text; null where the values stand in a way that has to be written anew. */
function bySplicing(text: string, map: YAMLMap, settings: Settings): string | null {
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const entries = Object.entries(settings);
  const isThere = (name: string): boolean => pairNamed(map, name) !== undefined;
  const added = entries.flatMap(([name, value]) => (value === null || isThere(name) ? [] : [[name, value] as const]));
  const cuts = entries.flatMap(([name, value]) => {
    const pair = pairNamed(map, name);
    if (!pair) return [];
    return [value === null ? takenOut(text, map, pair) : changedValue(text, map, pair, value)];
  });
  const all = [...cuts, addedTo(text, map, added, eol)];
  return all.some((cut) => cut === null) ? null : cutInto(text, all as readonly Cut[]);
}

function setIn(document: Document, path: readonly string[], value: Written): void {
  const before = document.getIn(path, true);
  const node = document.createNode(value);
  visit(node, { Collection: (_, one) => void (one.flow = true) });
  if (isNode(before)) Object.assign(node, { comment: before.comment, commentBefore: before.commentBefore });
  document.setIn(path, node);
}

/** By the library's own document: comments stay, the spaces before them may not. */
function byDocument(document: Document, name: string, settings: Settings): string | null {
  try {
    for (const [setting, value] of Object.entries(settings)) {
      const path = ['exercises', name, setting];
      if (value === null) document.deleteIn(path);
      else setIn(document, path, value);
    }
    return document.toString({ lineWidth: 0, flowCollectionPadding: false });
  } catch {
    return null; // Values that refer to each other.
  }
}

const read = (text: string): Document | null => {
  const document = parseDocument(text, { version: '1.2' }) as Document;
  return document.errors.length > 0 ? null : document;
};

/** Whether a text says what it should and holds every comment that was there. */
function isRight(before: string, after: string, wanted: Plain): boolean {
  const document = read(after);
  return (
    document !== null && JSON.stringify(plain(document)) === JSON.stringify(wanted) && keepsComments(before, after)
  );
}

function attempts(
  text: string,
  document: Document,
  name: string,
  settings: Settings,
): readonly (() => string | null)[] {
  const map = document.getIn(['exercises', name], true);
  const said = Object.fromEntries(
    Object.entries(settings).flatMap(([setting, value]) => (value === null ? [] : [[setting, value]])),
  );
  return [
    () => (isMap(map) ? bySplicing(text, map, settings) : withExerciseAdded(text, document, name, said)),
    () => byDocument(document, name, settings),
  ];
}

/**
 * The text with these settings of an exercise in it, the exercise itself added where it is not there. Null where the
 * text cannot be read as YAML, or is tied together in such a way that nobody could change it and keep the rest.
 */
export function withSettings(text: string, name: string, settings: Settings): string | null {
  const document = read(text);
  if (document === null || (document.contents !== null && !isMap(document.contents))) return null;
  const wanted = expected(plain(document), name, settings);
  for (const attempt of attempts(text, document, name, settings)) {
    const after = attempt();
    if (after !== null && isRight(text, after, wanted)) return after;
  }
  return null;
}
