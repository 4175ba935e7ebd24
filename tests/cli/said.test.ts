/**
 * What each command says, word for word: its help, a few outputs, and its exit codes. The transcripts in `said/` were
 * taken from the program before its commands were sorted into files of their own; `-u` writes them anew.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { eachWithData, standside } from './typed.ts';

const data = eachWithData();
beforeEach(() => void vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-11-26T12:00:00Z') }));
afterEach(() => void vi.useRealTimers());

/** 'DATA' stands for the data folder. */
const asTyped = (line: string): readonly string[] =>
  line
    .split(' ')
    .filter(Boolean)
    .map((word) => word.replace('DATA', data()));

async function transcript(lines: readonly string[]): Promise<string> {
  let text = '';
  for (const line of lines) {
    const { code, out, err } = await standside(...asTyped(line));
    text += `$ standside ${line}\n${out}${err.replace(/^(?=.)/gm, '! ')}= ${code}\n\n`;
  }
  return text.replaceAll(data(), 'DATA');
}

const MINE = '--data DATA';

const COMMANDS: Readonly<Record<string, readonly string[]>> = {
  standside: [
    '--help',
    'help',
    'help render',
    'help wekes',
    'nothing',
    'wekes',
    'review',
    'doctor',
    `tap ${MINE}`,
    MINE,
    '--data',
  ],
  bests: ['bests --help', `${MINE} bests`, `bests --json ${MINE}`, 'bests --data DATA/none', `bests extra ${MINE}`],
  sound: ['sound --help'],
  students: ['students --help', 'students DATA/routines', 'students DATA/none', `students DATA ${MINE}`],
  report: [
    'report --help',
    `report --from 2026-11-24 --to 2026-11-26 --for mine --out DATA/page.html ${MINE}`,
    `report --out DATA/page.html ${MINE}`,
    `report --from 2026-02-30 ${MINE}`,
    `report --from 2026-11-26 --to 2026-11-24 ${MINE}`,
    `report --for nothing ${MINE}`,
    `report --out DATA/none/page.html ${MINE}`,
  ],
  drill: [
    'drill --help',
    `drill quick-turn ${MINE}`,
    `drill quick-turn --key Bb --articulation double --tempo 90 --json ${MINE}`,
    `drill quick-turn --steps ${MINE}`,
    `drill quick-trun ${MINE}`,
    `drill quick-turn --instrument cornte ${MINE}`,
  ],
  exercises: ['exercises --help'],
  journal: [
    'journal --help',
    'journal check --help',
    'journal export --help',
    'journal merge --help',
    'journal schema --help',
    `journal check ${MINE}`,
    `journal check --json ${MINE}`,
    `journal export --csv ${MINE}`,
    `journal merge DATA/journal.jsonl DATA/none.jsonl ${MINE}`,
    `journal merge DATA/routines/mine.yaml ${MINE}`,
  ],
  ladder: ['ladder --help', 'ladder --from 60 --to 61', 'ladder --step 3x'],
  listen: ['listen --help', `listen DATA/none.wav ${MINE}`, `listen DATA/journal.jsonl ${MINE}`],
  tendencies: ['tendencies --help', `tendencies ${MINE}`, `tendencies --weeks 0 ${MINE}`],
  practice: ['practice --help', `practice quick-turn ${MINE}`],
  render: [
    'render --help',
    `render quick-turn --out DATA/click.mid --times 2 ${MINE}`,
    `render quick-turn --out DATA/click.mid --json ${MINE}`,
    `render quick-turn --out DATA/click.mid --force --json ${MINE}`,
    `render quick-turn --out DATA/click.ogg ${MINE}`,
    `render quick-turn --out DATA/click.wav --format 12 ${MINE}`,
  ],
  weeks: [
    'weeks --help',
    `weeks --exercise quick-turn ${MINE}`,
    `weeks --exercise quick-turn --data DATA/none`,
    `weeks --exercise quick-trun ${MINE}`,
  ],
  routine: [
    'routine --help',
    'routine check --help',
    'routine show --help',
    'routine new --help',
    'routine fit --help',
    `routine check mine ${MINE}`,
    `routine check mine --json ${MINE}`,
    `routine check DATA/none.yaml ${MINE}`,
    `routine show mine ${MINE}`,
    `routine show DATA/routines/mine.yaml ${MINE}`,
    `routine new other --title Other ${MINE}`,
    `routine new other ${MINE}`,
    `routine new third --instrument cornte ${MINE}`,
    `routine show other ${MINE}`,
    `routine fit mine --minutes 10 --seed 1 ${MINE}`,
    `routine fit mine --minutes 10 --seed 1 --order interleaved --parts work ${MINE}`,
    `routine fit mine --minutes 10 --order random ${MINE}`,
    `routine fit mine --minutes 10 --parts wrok ${MINE}`,
  ],
  lag: ['lag --help', `lag ${MINE}`],
  write: [
    'write --help',
    `write quick-turn --out DATA/page.abc ${MINE}`,
    `write quick-turn --out DATA/page.abc ${MINE}`,
    `write quick-turn --out DATA/page.pdf ${MINE}`,
  ],
};

describe('what is said', () => {
  it.each(Object.entries(COMMANDS))('by %s is what it always was', async (name, lines) => {
    await expect(await transcript(lines)).toMatchFileSnapshot(join(import.meta.dirname, 'said', `${name}.txt`));
  });

  it('as the length of a file has at most 59 seconds', async () => {
    // Six beats each time at 181: thirty of them last 59.67 s, by arithmetic.
    const { out } = await standside(...asTyped(`render quick-turn --out DATA/a.mid --times 30 --tempo 181 ${MINE}`));
    expect(out).toContain('90 bars at 181, 1 min 0 s');
  });

  it('as the version is that of the package', async () => {
    const root = new URL('../..', import.meta.url);
    const { version } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8')) as { version: string };
    expect(await standside('--version')).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });
});
