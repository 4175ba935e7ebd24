/**
 * StrykerJS chooses by stretches of source, and a stretch holds smaller mutants too. This checker, of StrykerJS's own
 * kind of plugin, lets only those through that were chosen.
 */
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { type Mutant, type Position, nameOf } from './mutant.ts';

/** Names the file that holds the names of the chosen mutants. */
export const CHOSEN = 'STANDSIDE_CHOSEN_MUTANTS';

let names: ReadonlySet<string> = new Set();

const fromOne = ({ line, column }: Position): Position => ({ line: line + 1, column: column + 1 });

/** A checker is given places that count from 0, the report has places that count from 1. */
const isChosen = (mutant: Mutant): boolean =>
  names.has(
    nameOf({
      ...mutant,
      fileName: relative(process.cwd(), mutant.fileName),
      location: { start: fromOne(mutant.location.start), end: fromOne(mutant.location.end) },
    }),
  );

interface ToCheck extends Mutant {
  readonly id: string;
}

const resultOf = (mutant: Mutant): object =>
  isChosen(mutant) ? { status: 'passed' } : { status: 'compileError', reason: 'not in the sample' };

/** What StrykerJS looks for in a plugin. */
export const strykerPlugins = [
  {
    kind: 'Checker',
    name: 'only-chosen',
    value: {
      init: async (): Promise<void> => {
        names = new Set(JSON.parse(readFileSync(process.env[CHOSEN] ?? '', 'utf8')) as readonly string[]);
      },
      group: async (mutants: readonly ToCheck[]): Promise<readonly (readonly string[])[]> => [
        mutants.map(({ id }) => id),
      ],
      check: async (mutants: readonly ToCheck[]): Promise<object> =>
        Object.fromEntries(mutants.map((mutant) => [mutant.id, resultOf(mutant)])),
    },
  },
];
