/** A new exercise behind the last one of a routine file's text. */
import { type Document, type Pair, isMap } from 'yaml';
import { type Written, valueText } from './written-text.ts';

const linesOf = (indent: string, step: string, name: string, settings: Readonly<Record<string, Written>>): string[] => [
  `${indent}${name}:${Object.keys(settings).length === 0 ? ' {}' : ''}`,
  ...Object.entries(settings).map(([setting, value]) => `${indent}${step}${setting}: ${valueText(value)}`),
];

/** Spaces at the beginning of the line on which a name stands. */
const indentAt = (text: string, pair: Pair): string => {
  const at = (pair.key as { range?: readonly number[] }).range?.[0] ?? 0;
  return /^ */.exec(text.slice(text.lastIndexOf('\n', at - 1) + 1))?.[0] ?? '';
};

/** Where the last thing that is said of a pair ends, its comment on the same line included. */
function behind(text: string, pair: Pair): number {
  const node = (pair.value ?? pair.key) as { range?: readonly number[] };
  const said = text.slice(0, node.range?.[1] ?? text.length).trimEnd().length;
  const end = text.indexOf('\n', said);
  return end < 0 ? text.length : text[end - 1] === '\r' ? end - 1 : end;
}

/** Null where the exercises stand in braces, or under a name without anything. */
export function withExerciseAdded(
  text: string,
  document: Document,
  name: string,
  settings: Readonly<Record<string, Written>>,
): string | null {
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const exercises = document.get('exercises', true);
  if (exercises === undefined) {
    const isBraced = isMap(document.contents) && document.contents.flow;
    const start = text === '' || text.endsWith('\n') ? text : text + eol;
    return isBraced ? null : `${start}${['exercises:', ...linesOf('  ', '  ', name, settings)].join(eol)}${eol}`;
  }
  const last = isMap(exercises) && !exercises.flow ? exercises.items.at(-1) : undefined;
  if (last === undefined) return null;
  const indent = indentAt(text, last);
  const at = behind(text, last);
  return text.slice(0, at) + [eol, ...linesOf(indent, '  ', name, settings)].join(eol) + text.slice(at);
}
