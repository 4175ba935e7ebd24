/** YAML in, plain values out, and for every value the place where it was written. */
import {
  type Document,
  LineCounter,
  type Node,
  type ParsedNode,
  type YAMLError,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  parseDocument,
  visit,
} from 'yaml';
import { type FileTrouble, type LineAndColumn, type Path, START, named } from './place-in-file.ts';
import { BY_SHARP, cutAfter, cutsIn } from './cut-off-patterns.ts';
import { harmless } from '../../common/harmless-text.ts';
import { tooMuchIn } from './written-limits.ts';

export interface YamlText {
  readonly value: unknown;
  /** Place of a value; with `key`, of its name. What is not there has its parent's place. */
  readonly place: (path: Path, which?: 'key' | 'value') => LineAndColumn;
  /** Where a sharp cuts off the pattern at this path; null where none does. */
  readonly cut: (path: Path) => LineAndColumn | null;
}

const MOST_CHARS = 1_000_000;
const MOST_ALIASES = 200;

/** The parser's codes in words; what is not here keeps the parser's own message. */
const SAID: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'a tab stands where spaces belong; indent with spaces',
  BAD_ALIAS: 'this * refers to nothing; put text that begins with * or & in quotes',
  BAD_DQ_ESCAPE: 'this backslash makes no character; use single quotes for plain text',
  BAD_SCALAR_START: 'text may not begin with this character; put it in quotes',
  BAD_INDENT: 'this line is not indented like its neighbours',
  MISSING_CHAR: 'a closing quote or bracket, or a colon with a space after it, is missing',
  MULTILINE_IMPLICIT_KEY: 'a colon with a space after it is missing, or the line is not indented like its neighbours',
  BLOCK_AS_IMPLICIT_KEY: 'a second colon in one line; put text that holds a colon in quotes',
  MULTIPLE_DOCS: 'a second document begins here; a routine file holds one',
  TAG_RESOLVE_FAILED: 'a tag is of no use here; put text that begins with ! in quotes',
  NON_STRING_KEY: 'a name has to be plain text',
};

/** The name that begins at an offset. */
const nameAt = (text: string, offset: number): string =>
  /^["']?([^"':\n]*)/.exec(text.slice(offset, offset + 200))?.[1]?.trim() ?? '';

const said = ({ code, message }: YAMLError): string =>
  `${SAID[code] ?? harmless(message.split('\n')[0] ?? '', 120).replace(/\.$/, '')}.`;

/** Offsets of names that stand in their group a second time. The parser's own search looks at all names for each. */
function doubled(doc: Document): readonly number[] {
  const found: number[] = [];
  visit(doc, {
    Map(_, { items }) {
      const names = new Set<unknown>();
      for (const { key } of items) {
        if (!isScalar(key)) continue;
        if (names.has(key.value)) found.push(key.range?.[0] ?? 0);
        names.add(key.value);
      }
    },
  });
  return found;
}

interface Fault {
  readonly at: number;
  readonly sentence: string;
}

/** What the parser says, and doubled names, in the order of the text. */
const faultsIn = (doc: Parsed, text: string): readonly Fault[] =>
  [
    ...[...doc.errors, ...doc.warnings].map((error) => ({ at: error.pos[0], sentence: said(error) })),
    ...doubled(doc).map((at) => ({
      at,
      sentence: `'${harmless(nameAt(text, at), 40)}' stands here a second time; keep one of the two.`,
    })),
  ].toSorted((a, b) => a.at - b.at);

function stepInto(doc: Document, node: unknown, name: PropertyKey): { key: unknown; value: unknown } | null {
  const at = isAlias(node) ? node.resolve(doc) : node;
  if (isSeq(at))
    return typeof name === 'number' && name in at.items ? { key: at.items[name], value: at.items[name] } : null;
  if (!isMap(at)) return null;
  const pair = at.items.find(({ key }) => isScalar(key) && String(key.value) === String(name));
  return pair === undefined ? null : { key: pair.key, value: pair.value ?? pair.key };
}

function offsetOf(doc: Document, path: Path, which: 'key' | 'value'): number {
  let at: { key: unknown; value: unknown } = { key: doc.contents, value: doc.contents };
  for (const name of path) {
    const next = stepInto(doc, at.value, name);
    if (next === null) break;
    at = next;
  }
  const node = at[which];
  return isNode(node) ? (node.range?.[0] ?? 0) : 0;
}

function tooManyAliases(doc: Document): Node | null {
  let count = 0;
  let last: Node | null = null;
  visit(doc, {
    Alias(_, node) {
      count += 1;
      last = node;
      return count > MOST_ALIASES ? visit.BREAK : undefined;
    },
  });
  return count > MOST_ALIASES ? last : null;
}

function firstAlias(doc: Document): Node | null {
  let first: Node | null = null;
  visit(doc, { Alias: (_, node) => ((first = node), visit.BREAK) });
  return first;
}

type Parsed = Document.Parsed<ParsedNode>;

function parse(text: string, lines: LineCounter): Parsed | null {
  try {
    return parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      stringKeys: true,
      version: '1.2',
      uniqueKeys: false,
    });
  } catch (error) {
    // Thousands of nested brackets exhaust the parser's stack.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function toValue(doc: Parsed): { readonly value: unknown } | null {
  try {
    return { value: doc.toJS({ maxAliasCount: MOST_ALIASES }) };
  } catch (error) {
    if (error instanceof ReferenceError || error instanceof RangeError) return null;
    throw error;
  }
}

/** One YAML document, or every trouble found in it with its place. */
export function readYaml(text: string, file: string): YamlText | { readonly troubles: readonly FileTrouble[] } {
  const one = (place: LineAndColumn, sentence: string) => ({ troubles: [{ file, ...place, sentence }] });
  if (text.length > MOST_CHARS) return one(START, 'the file is larger than a megabyte; that is no routine.');
  const lines = new LineCounter();
  const placeAt = (offset: number): LineAndColumn => {
    const { line, col } = lines.linePos(offset);
    return line === 0 ? START : { line, column: col };
  };
  const doc = parse(text, lines);
  if (doc === null) return one(START, 'brackets or lists stand inside each other too deeply.');
  const wrong = faultsIn(doc, text);
  if (wrong.length > 0) {
    const cuts = cutsIn(text).map((at) => ({ at, sentence: BY_SHARP }));
    return { troubles: named([...cuts, ...wrong].map(({ at, sentence }) => ({ file, ...placeAt(at), sentence }))) };
  }
  const value = tooManyAliases(doc) === null ? toValue(doc) : null;
  if (value === null) {
    const at = firstAlias(doc)?.range?.[0] ?? 0;
    return one(placeAt(at), 'references with * unfold into far too much; write the values out.');
  }
  const much = tooMuchIn(value.value);
  if (much) return one(placeAt(offsetOf(doc, much.path, 'key')), much.sentence);
  return {
    ...value,
    place: (path, which = 'value') => placeAt(offsetOf(doc, path, which)),
    cut: (path) => {
      const key = offsetOf(doc, path, 'key');
      const after = cutAfter(text.slice(key));
      return after === null ? null : placeAt(key + after);
    },
  };
}
