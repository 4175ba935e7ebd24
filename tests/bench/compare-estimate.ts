/** How sure the estimate is against how sure it may be, over simulated players: `npm run compare:estimate`. */
import { seeded } from '../../src/common/chance.ts';
import { KINDS, RANGES } from '../ladder/estimate-players.ts';
import { CHECKPOINTS, type Summary, summaries } from '../ladder/estimate-trial.ts';

/**
 * `npm run compare:estimate -- 100 slope 1` tries a hundred players of the kinds that begin so, from the first seed on.
 * What is in the table was never tuned on: weights are tried out on seeds below 100,000.
 */
const players = Number(process.argv[2] ?? 300);
const asked = process.argv[3] ?? '';
const firstSeed = Number(process.argv[4] ?? 700_000);

const percent = (share: number): string => (100 * share).toFixed(1);

const cell = ({ coverage, medianError, medianErrorIfTold }: Summary): string =>
  [coverage, medianError, medianErrorIfTold].map(percent).join(' / ');

process.stdout.write(`${players} players of each kind, the default rule. ${RANGES.join(' ')}\n`);
process.stdout.write(
  'How many 80 % intervals hold the truth / median error / median error of who is told the curve, in per cent.\n\n',
);
process.stdout.write(`| players | ${CHECKPOINTS.map((marks) => `${marks} marks`).join(' | ')} |\n`);
process.stdout.write(`| --- |${CHECKPOINTS.map(() => ' --- |').join('')}\n`);
for (const [kind, drawn] of Object.entries(KINDS).filter(([name]) => name.startsWith(asked))) {
  const row = summaries(players, drawn, (i) => seeded(firstSeed + i));
  process.stdout.write(`| ${kind} | ${row.map(cell).join(' | ')} |\n`);
}
