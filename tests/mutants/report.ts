/** What the tests made of the mutants, as text; pure. */
import { type Mutant, nameOf } from './mutant.ts';

/** A mutant and what became of it: 'Killed', 'Survived', 'NoCoverage', 'Timeout', or an error of some kind. */
export interface Tried extends Mutant {
  readonly status: string;
}

const COLUMNS = ['tried', 'killed', 'survived', 'no coverage', 'timeouts', 'errors', 'score'] as const;

const FATES: readonly string[] = ['Killed', 'Survived', 'NoCoverage', 'Timeout'];

/** Found out of all that could be: a test that never ends has noticed too; an error says nothing of the tests. */
function row(tried: readonly Tried[]): readonly string[] {
  const [killed = 0, survived = 0, uncovered = 0, timeouts = 0] = FATES.map(
    (fate) => tried.filter(({ status }) => status === fate).length,
  );
  const judged = killed + survived + uncovered + timeouts;
  const score = judged === 0 ? '' : `${((100 * (killed + timeouts)) / judged).toFixed(1)} %`;
  return [...[tried.length, killed, survived, uncovered, timeouts, tried.length - judged].map(String), score];
}

function groupsOf(tried: readonly Tried[], groupOf: (fileName: string) => string): ReadonlyMap<string, Tried[]> {
  const groups = new Map<string, Tried[]>();
  for (const one of tried) {
    const group = groupOf(one.fileName);
    groups.set(group, [...(groups.get(group) ?? []), one]);
  }
  return new Map([...groups].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** One row for each group, and one for all. */
export function tableOf(tried: readonly Tried[], groupOf: (fileName: string) => string): string {
  const rows = [...groupsOf(tried, groupOf)].map(([group, some]) => [group, ...row(some)]);
  const all = [['', ...COLUMNS], ...rows, ['all', ...row(tried)]];
  const widths = all[0]!.map((_, column) => Math.max(...all.map((cells) => cells[column]!.length)));
  return all
    .map((cells) => cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '))
    .join('\n');
}

const LONG = 90;
const oneLine = (code: string): string => {
  const line = code.replaceAll(/\s+/gu, ' ').trim();
  return line.length > LONG ? `${line.slice(0, LONG)} …` : line;
};

/** The source from one place to another; both count from 1. */
function stretch(source: string, { start, end }: Mutant['location']): string {
  const lines = source.split('\n').slice(start.line - 1, end.line);
  const last = lines.length - 1;
  lines[last] = lines[last]!.slice(0, end.column - 1);
  lines[0] = lines[0]!.slice(start.column - 1);
  return lines.join('\n');
}

const lineOf = (one: Tried, source: string): string => {
  const { fileName, location, mutatorName, replacement, status } = one;
  const place = `${fileName}:${location.start.line}:${location.start.column}`;
  const was = oneLine(stretch(source, location));
  return (
    `${place} ${mutatorName}${status === 'Survived' ? '' : `, ${status}`}\n    ${was}\n -> ` + `${oneLine(replacement)}`
  );
};

const inOrder = (a: Tried, b: Tried): number =>
  a.fileName.localeCompare(b.fileName) ||
  a.location.start.line - b.location.start.line ||
  a.location.start.column - b.location.start.column ||
  (nameOf(a) < nameOf(b) ? -1 : 1);

/** The mutants that no test found out, with what was changed; `sourceOf` gives a file's text. */
export const survivorsOf = (tried: readonly Tried[], sourceOf: (fileName: string) => string): string =>
  tried
    .filter(({ status }) => status !== 'Killed' && status !== 'Timeout')
    .toSorted(inOrder)
    .map((one) => lineOf(one, sourceOf(one.fileName)))
    .join('\n');
