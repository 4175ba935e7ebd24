/** How sure the estimate is against how sure it may be, over simulated players: `npm run compare:estimate`. */
import { seeded } from '../../src/common/chance.ts';
import { KINDS, RANGES } from '../ladder/estimate-players.ts';
import { CHECKPOINTS, type Summary, summaries } from '../ladder/estimate-trial.ts';

/** `npm run compare:estimate -- 100 slope` tries a hundred players of the kinds that begin so. */
const players = Number(process.argv[2] ?? 300);
const asked = process.argv[3] ?? '';

const percent = (share: number): string => (100 * share).toFixed(1);

const cell = ({ coverage, medianError }: Summary): string => `${percent(coverage)} / ${percent(medianError)}`;

process.stdout.write(`${players} players of each kind, rule 3 up, 1 down. ${RANGES.join(' ')}\n`);
process.stdout.write('How many 80 % intervals hold the truth / median error, both in per cent.\n\n');
process.stdout.write(`| players | ${CHECKPOINTS.map((marks) => `${marks} marks`).join(' | ')} |\n`);
process.stdout.write(`| --- |${CHECKPOINTS.map(() => ' --- |').join('')}\n`);
for (const [kind, drawn] of Object.entries(KINDS).filter(([name]) => name.startsWith(asked))) {
  const row = summaries(players, drawn, (i) => seeded(i + 1));
  process.stdout.write(`| ${kind} | ${row.map(cell).join(' | ')} |\n`);
}
