/** `npm run bench`: figures of the built program on this machine, each beside its target. Linux only. */
import { cpus, loadavg } from 'node:os';
import { benchJournal } from './journal.ts';
import { type BenchRow, benchLadder } from './ladder.ts';
import { benchPlan } from './plan.ts';
import { benchPractice, benchStart } from './program.ts';
import { type Row, rowLine } from './row.ts';

/** `npm run bench -- 10` practises for ten seconds instead of sixty. */
const seconds = Number(process.argv[2] ?? 60);

const rowOf = ({ name, value, unit, target }: BenchRow): Row => ({ what: name, figure: value, unit, below: target });

const print = (rows: readonly Row[]): void => void process.stdout.write(`${rows.map(rowLine).join('\n')}\n`);

process.stdout.write(
  `node ${process.version}, ${cpus().length} cores of ${cpus()[0]?.model ?? '?'}, load ${loadavg()[0]?.toFixed(2)}\n\n`,
);
print(benchJournal());
print(benchLadder().map(rowOf));
print(await benchPlan());
print(await benchStart());
print(await benchPractice(seconds));
