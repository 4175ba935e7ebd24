import { bpmText } from '../../music/time/tempo-text.ts';
import type { Command } from 'commander';
import type { PlayerCurve } from '../../ladder/settling/player-curve.ts';
import type { LadderRule, RungStep } from '../../ladder/rule/ladder-rule.ts';

interface Asked {
  readonly up: string;
  readonly down: string;
  readonly rungsUp: string;
  readonly rungsDown: string;
  readonly step: string;
  readonly floor: string;
  readonly top: string;
  readonly from?: string;
  readonly to?: string;
  readonly threshold: string;
  readonly slope: string;
  readonly lapse: string;
  readonly tense: string;
  readonly simulate?: string;
  readonly days: string;
  readonly seed: string;
  readonly json?: boolean;
}

/** States beyond this would take minutes and gigabytes. */
const MOST_STATES = 20_000;

async function refuse(sentence: string): Promise<never> {
  const { Trouble } = await import('../../common/trouble.ts');
  const { harmless } = await import('../../common/harmless-text.ts');
  throw new Trouble(harmless(sentence, 300), 2);
}

async function numberOf(text: string, option: string, right: string): Promise<number> {
  const value = Number(text.trim());
  if (text.trim() === '' || !Number.isFinite(value)) return refuse(`--${option} is '${text}'; it must be ${right}.`);
  return value;
}

/** '3%' or '0.03'. */
async function shareOf(text: string, option: string, most: number): Promise<number> {
  const right = `a share from 0 to ${most * 100} %, such as 2%`;
  const value = text.trim().endsWith('%')
    ? (await numberOf(text.trim().slice(0, -1), option, right)) / 100
    : await numberOf(text, option, right);
  return value >= 0 && value <= most ? value : refuse(`--${option} is '${text}'; it must be ${right}.`);
}

/** A bare number is beats per minute, as in a routine file. */
async function stepOf(text: string): Promise<RungStep> {
  if (text === 'marks') return { by: 'marks' };
  const [, number, unit] = /^\s*(-?[\d.]+)\s*(%|bpm|)\s*$/u.exec(text) ?? [];
  if (number === undefined || !Number.isFinite(Number(number))) {
    return refuse(
      `--step is '${text}'; say 3% for equal ratios, 2 or 2bpm for beats per minute, or marks for the metronome marks.`,
    );
  }
  return unit === '%' ? { by: 'ratio', percent: Number(number) } : { by: 'beats', bpm: Number(number) };
}

async function ruleOf(asked: Asked): Promise<LadderRule> {
  const { DEFAULT_RULE } = await import('../../ladder/rule/ladder-rule.ts');
  const { checkRule } = await import('../../ladder/rule/rule-check.ts');
  const floor = await numberOf(asked.floor, 'floor', 'a tempo in beats per minute');
  const top = await numberOf(asked.top, 'top', 'a tempo in beats per minute');
  const inside = (bpm: number): number => Math.min(Math.max(bpm, floor), top);
  const rule: LadderRule = {
    ...DEFAULT_RULE,
    cleanUp: await countOf(asked.up, 'up', 20),
    missedDown: await countOf(asked.down, 'down', 20),
    rungsUp: await countOf(asked.rungsUp, 'rungs-up', 10),
    rungsDown: await countOf(asked.rungsDown, 'rungs-down', 10),
    step: await stepOf(asked.step),
    floor,
    top,
    start: inside(DEFAULT_RULE.start),
    target: inside(DEFAULT_RULE.target),
  };
  const [wrong] = checkRule(rule);
  return wrong ? refuse(wrong) : rule;
}

async function tempoOf(text: string, option: string, rule: LadderRule): Promise<number> {
  const right = `a tempo on the ladder, from ${rule.floor} to ${rule.top}`;
  const bpm = await numberOf(text, option, right);
  return bpm >= rule.floor && bpm <= rule.top ? bpm : refuse(`--${option} is ${text}; it must be ${right}.`);
}

async function curveOf(asked: Asked, rule: LadderRule): Promise<PlayerCurve> {
  const slope = await numberOf(asked.slope, 'slope', 'a number from 1 to 100');
  if (slope < 1 || slope > 100)
    return refuse(`--slope is ${asked.slope}; it must be from 1 (gentle) to 100 (sudden), and 12 is usual.`);
  return {
    threshold: await tempoOf(asked.threshold, 'threshold', rule),
    slope,
    lapse: await shareOf(asked.lapse, 'lapse', 0.5),
    tense: await shareOf(asked.tense, 'tense', 0.9),
  };
}

async function countOf(text: string, option: string, most: number): Promise<number> {
  const right = `a whole number from 1 to ${most}`;
  const count = await numberOf(text, option, right);
  return Number.isInteger(count) && count >= 1 && count <= most
    ? count
    : refuse(`--${option} is '${text}'; it must be ${right}.`);
}

interface Way {
  readonly from: number;
  readonly to: number;
  readonly repetitions: number;
}

async function wayOf({ from, to }: Asked, rule: LadderRule, curve: PlayerCurve): Promise<Way | null> {
  if (from === undefined && to === undefined) return null;
  const { repetitionsBetween } = await import('../../ladder/settling/settling-tempo.ts');
  const { nearestRung, rungsOf } = await import('../../ladder/rule/rungs.ts');
  const rungs = rungsOf(rule);
  const rung = async (text: string, option: string): Promise<number> =>
    rungs[nearestRung(rungs, await tempoOf(text, option, rule))]!;
  const [a, b] = [await rung(from ?? `${rule.start}`, 'from'), await rung(to ?? `${rule.target}`, 'to')];
  return { from: a, to: b, repetitions: repetitionsBetween(rule, curve, a, b) };
}

/** Tempos that were asked for and are no rungs have been moved to the nearest. */
const nearestNote = ({ from, to }: Asked, way: Way): string =>
  (from !== undefined && Number(from) !== way.from) || (to !== undefined && Number(to) !== way.to)
    ? ' These are the nearest rungs.'
    : '';

interface Tried {
  readonly days: number;
  readonly marks: readonly { readonly bpm: number; readonly mark: string }[];
  readonly best: number | null;
  readonly seed: number;
}

/** Refused when wrong, even where nothing is left to chance. */
const seedOf = (text: string): Promise<number> => numberOf(text, 'seed', 'a number');

/** A simulated player climbs for some days, with drift, learning and fatigue. */
async function tried(asked: Asked, rule: LadderRule, curve: PlayerCurve): Promise<Tried | null> {
  if (asked.simulate === undefined) return null;
  const { LIVELY, simulateDays } = await import('../../ladder/settling/simulated-player.ts');
  const { seeded } = await import('../../common/chance.ts');
  const repetitions = await countOf(asked.simulate, 'simulate', 1000);
  const days = await countOf(asked.days, 'days', 1000);
  const seed = await seedOf(asked.seed);
  const { climb, marks } = simulateDays(
    curve,
    { ...LIVELY, ceiling: curve.threshold * 1.3 },
    rule,
    days,
    repetitions,
    seeded(seed),
  );
  return { days, marks, best: climb.best, seed };
}

async function triedText({ days, marks, best, seed }: Tried): Promise<string> {
  const { tempoChart } = await import('../../ladder/settling/settling-chart.ts');
  const clean = marks.filter(({ mark }) => mark === 'clean').length / marks.length;
  const held = best === null ? 'no rung held' : `best ${bpmText(best)}`;
  return [
    `Simulated (seed ${seed}): ${marks.length} repetitions in ${days} day${days === 1 ? '' : 's'}, by chance, ` +
      `with drift, learning and fatigue.`,
    `${Math.round(clean * 100)} % clean, ${held}.`,
    '',
    tempoChart(marks.map(({ bpm }) => bpm)),
  ].join('\n');
}

async function run(asked: Asked): Promise<void> {
  const rule = await ruleOf(asked);
  await seedOf(asked.seed);
  const curve = await curveOf(asked, rule);
  const { settlingOf, settlingSentence, chainStates } = await import('../../ladder/settling/settling-tempo.ts');
  if (chainStates(rule) > MOST_STATES)
    return refuse('This ladder has too many rungs to reckon with; choose a larger step.');
  const settling = settlingOf(rule, curve);
  const way = await wayOf(asked, rule, curve);
  const simulated = await tried(asked, rule, curve);
  if (asked.json) {
    const { printJson } = await import('../saved-data.ts');
    // JSON has no infinity: null is never.
    const climb = way && { ...way, repetitions: Number.isFinite(way.repetitions) ? way.repetitions : null };
    return printJson({
      sentence: settlingSentence(rule, curve),
      order: 'climb',
      rule,
      curve,
      settling,
      climb,
      simulated,
    });
  }
  const { ALTERNATION_REMARK, climbText, curveText, ruleText, settlingText } =
    await import('../../ladder/settling/settling-text.ts');
  const { sharesChart } = await import('../../ladder/settling/settling-chart.ts');
  const parts = [
    `${ruleText(rule)}\n${curveText(curve)}`,
    sharesChart(settling),
    settlingText(rule, curve, settling) +
      (way ? `\n${climbText(way.from, way.to, way.repetitions)}${nearestNote(asked, way)}` : ''),
    ALTERNATION_REMARK,
    ...(simulated ? [await triedText(simulated)] : []),
  ];
  process.stdout.write(`${parts.join('\n\n')}\n`);
}

/** `standside ladder`: where a rule settles with a player. */
export function addLadderCommand(program: Command): void {
  program
    .command('ladder')
    .description('where a rule of the ladder settles, for a player described by a curve: exact, drawn, and by chance')
    .option('--up <n>', 'up after so many clean in a row', '3')
    .option('--down <n>', 'down after so many missed in a row', '2')
    .option('--rungs-up <n>', 'how many rungs up', '1')
    .option('--rungs-down <n>', 'how many rungs down', '1')
    .option('--step <step>', 'between rungs: 3%, 2 (beats per minute), or marks', '3%')
    .option('--floor <bpm>', 'lowest rung', '40')
    .option('--top <bpm>', 'highest rung', '240')
    .option('--from <bpm>', 'expected repetitions from this rung')
    .option('--to <bpm>', 'to this one')
    .option('--threshold <bpm>', 'the player is clean half of the time here', '120')
    .option('--slope <s>', 'how suddenly it falls apart, 1 to 100', '12')
    .option('--lapse <share>', 'share of repetitions that fail at any tempo', '2%')
    .option('--tense <share>', 'share of tense among what is not clean, at the threshold', '30%')
    .option('--simulate <n>', 'also let a simulated player climb, so many repetitions a day')
    .option('--days <n>', 'for so many days', '20')
    .option('--seed <n>', 'the same seed gives the same player', '1')
    .option('--json', 'print JSON')
    .action((asked: Asked) => run(asked));
}
