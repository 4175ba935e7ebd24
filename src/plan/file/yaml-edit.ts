/** Writes single values into a YAML text and leaves everything else in it as it stands, comments and order too. */
import { type Document, isMap, isScalar, isSeq, parseDocument, stringify } from 'yaml';

type Value = string | number | readonly string[];

/** A value and the names that lead to it: `[['volume', 'click'], 85]`; null takes it out. */
export type WrittenValue = readonly [path: readonly string[], value: Value | null];

type Range = readonly [from: number, to: number];

/** Where a value stands on its line; null for what is missing, a group, a text block, or tied to other values. */
function rangeOf(node: unknown): Range | null {
  if (!isScalar(node) || !node.range || node.anchor !== undefined || node.tag !== undefined) return null;
  const [from, to] = node.range;
  return from < to && !node.type?.startsWith('BLOCK') ? [from, to] : null;
}

interface Change {
  readonly range: Range;
  readonly value: string | number;
}

/** As a person would write it; in quotes where it would mean something else without them, and in JSON always. */
function asWritten(value: string | number, isJson: boolean): string {
  const plain = stringify(value, { lineWidth: 0 }).trim();
  return isJson || /[\n,[\]{}]/.test(plain) ? JSON.stringify(value) : plain;
}

/** From the last to the first, so that places before a change stay right. */
const changed = (text: string, changes: readonly Change[], isJson: boolean): string =>
  changes
    .toSorted((a, b) => b.range[0] - a.range[0])
    .reduce((t, { range: [from, to], value }) => t.slice(0, from) + asWritten(value, isJson) + t.slice(to), text);

function takeOut(document: Document, path: readonly string[]): void {
  if (document.hasIn(path)) document.deleteIn(path);
}

function setValue(document: Document, path: readonly string[], value: Value): void {
  for (let depth = 1; depth < path.length; depth += 1) {
    const group = path.slice(0, depth);
    if (!isMap(document.getIn(group))) document.setIn(group, document.createNode({}));
  }
  const before = document.getIn(path, true);
  const node = document.createNode(value);
  if (isScalar(before) || isSeq(before)) node.comment = before.comment ?? null;
  // One line, as lists of keys are written.
  if (isSeq(node)) node.flow = true;
  document.setIn(path, node);
}

const isJsonText = ({ contents }: Pick<Document, 'contents'>): boolean => isMap(contents) && contents.flow === true;

function rebuilt(document: Document, values: readonly WrittenValue[]): string | null {
  for (const [path, value] of values) {
    if (value === null) takeOut(document, path);
    else setValue(document, path, value);
  }
  const isJson = isJsonText(document);
  try {
    return document.toString({ lineWidth: 0, ...(isJson ? { defaultStringType: 'QUOTE_DOUBLE' as const } : {}) });
  } catch {
    return null; // Another value refers to one that was replaced.
  }
}

/** The text with the values in it; null where it is no group of settings, or has mistakes in it. */
export function withValues(text: string, values: readonly WrittenValue[]): string | null {
  const document = parseDocument(text);
  if (document.errors.length > 0 || (document.contents !== null && !isMap(document.contents))) return null;
  const changes = values.flatMap(([path, value]) => {
    const range = rangeOf(document.getIn(path, true));
    return range === null || typeof value === 'object' ? [] : [{ range, value }];
  });
  return changes.length === values.length
    ? changed(text, changes, isJsonText(document as Document))
    : rebuilt(document as Document, values);
}
