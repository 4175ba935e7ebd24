/** Who is told of a wall: players who gain 1 % a week, and players who have stopped: `npm run compare:walls`. */
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { CLEAR, USUAL, rangeText, toldOfWalls } from '../ladder/wall-players.ts';

/** `npm run compare:walls -- 50` tries fifty players instead of 200. */
const players = Number(process.argv[2] ?? 200);

const WIDE = { ...DEFAULT_RULE, floor: 20, top: 480, target: 400 };
const RULES = { '3 up, 1 down': { ...WIDE, missedDown: 1 }, '3 up, 2 down': { ...WIDE, missedDown: 2 } };
const WHO = { usual: USUAL, clear: CLEAR };

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

for (const [name, who] of Object.entries(WHO)) process.stdout.write(`${name}: ${rangeText(who)}.\n`);
process.stdout.write(
  `${players} players in each row; nine weeks of 1 % each before.\n\n` +
    '| players | rule | weeks told, gaining 1 % a week | told after standing still 1 week | 2 | 3 | 4 | 5 | 6 |\n' +
    '| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n',
);
for (const [name, who] of Object.entries(WHO)) {
  for (const [ruleName, rule] of Object.entries(RULES)) {
    const { gaining, stoppedBy } = toldOfWalls(players, who, rule, 1);
    process.stdout.write(`| ${[name, ruleName, percent(gaining), ...stoppedBy.map(percent)].join(' | ')} |\n`);
  }
}
