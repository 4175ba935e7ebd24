/** Who is told of a wall: players who gain 1 % a week, and players who have stopped: `npm run compare:walls`. */
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { CLEAR, KEEN, USUAL, rangeText, toldOfWalls } from '../ladder/wall-players.ts';

/**
 * `npm run compare:walls -- 50 usual 1` tries fifty players of the rows that begin so, from the first seed on. What is
 * in the table was never tuned on: limits are tried out on seeds below 100,000.
 */
const players = Number(process.argv[2] ?? 200);
const asked = process.argv[3] ?? '';
const firstSeed = Number(process.argv[4] ?? 300_000);

const WIDE = { ...DEFAULT_RULE, floor: 20, top: 480, target: 400 };
const RULES = { '3 up, 1 down': { ...WIDE, missedDown: 1 }, '3 up, 2 down': { ...WIDE, missedDown: 2 } };
const WHO = { usual: USUAL, clear: CLEAR, keen: KEEN };
const ROWS = Object.entries(WHO).flatMap(([name, who]) =>
  Object.entries(RULES).map(([ruleName, rule]) => ({ name: `${name}, ${ruleName}`, who, rule })),
);

const percent = (share: number): string => (100 * share).toFixed(1);

for (const [name, who] of Object.entries(WHO)) process.stdout.write(`${name}: ${rangeText(who)}.\n`);
process.stdout.write(
  `${players} players in each row; nine weeks of 1 % each before. Told by the end of so many weeks of standing ` +
    'still / at best, per cent.\n\n' +
    '| players | marks a week | weeks told, gaining 1 % a week | 1 week | 2 | 3 | 4 | 5 | 6 |\n' +
    '| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n',
);
for (const { name, who, rule } of ROWS.filter((row) => row.name.startsWith(asked))) {
  const { gaining, stoppedBy, boundBy } = toldOfWalls(players, who, rule, firstSeed);
  const marks = who.aDay.map((times) => 5 * times).join(' to ');
  const told = stoppedBy.map((share, week) => `${percent(share)} / ${percent(boundBy[week]!)}`);
  process.stdout.write(`| ${[name, marks, percent(gaining), ...told].join(' | ')} |\n`);
}
