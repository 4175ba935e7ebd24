/** Writes single values into a YAML text and leaves everything else in it as it stands, comments and order too. */
import { type Document, type Scalar, isMap, isScalar, parseDocument } from 'yaml';

/** A value and the names that lead to it: `[['volume', 'click'], 85]`. */
export type WrittenValue = readonly [path: readonly string[], value: string | number];

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

/** From the last to the first, so that places before a change stay right. */
const changed = (text: string, changes: readonly Change[]): string =>
  changes
    .toSorted((a, b) => b.range[0] - a.range[0])
    .reduce((t, { range: [from, to], value }) => t.slice(0, from) + JSON.stringify(value) + t.slice(to), text);

function setValue(document: Document, path: readonly string[], value: string | number): void {
  for (let depth = 1; depth < path.length; depth += 1) {
    const group = path.slice(0, depth);
    if (!isMap(document.getIn(group))) document.setIn(group, document.createNode({}));
  }
  const before = document.getIn(path, true);
  const node = document.createNode(value) as Scalar;
  if (isScalar(before)) node.comment = before.comment ?? null;
  document.setIn(path, node);
}

function rebuilt(document: Document, values: readonly WrittenValue[]): string | null {
  for (const [path, value] of values) setValue(document, path, value);
  const isJson = isMap(document.contents) && document.contents.flow === true;
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
    return range === null ? [] : [{ range, value }];
  });
  return changes.length === values.length ? changed(text, changes) : rebuilt(document as Document, values);
}
