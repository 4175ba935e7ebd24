/** Where a rule settles and where a simulated player went, drawn as plain text. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';
import type { RungShare, Settling } from './settling-tempo.ts';
import { percent } from './settling-text.ts';

const RUNG = 30;
/** Rungs where less than this of all repetitions is played are left out. */
const SHOWN = 0.004;

function rungLine({ bpm, share, clean }: RungShare, most: number, note: string): string {
  const length = Math.max(1, Math.round((share / most) * RUNG));
  const rung = '━'.repeat(length).padEnd(RUNG);
  return `${bpmText(bpm).padStart(7)} │${rung}│ ${percent(clean).padStart(5)} clean ${note}`.trimEnd();
}

/** Fastest on top; a rung is as long as the share of repetitions played on it. */
export function sharesChart({ rungs, tempo }: Settling): string {
  const shown = rungs.filter(({ share }) => share >= SHOWN).toReversed();
  const most = Math.max(...shown.map(({ share }) => share));
  const distance = ({ bpm }: RungShare): number => Math.abs(Math.log(bpm / tempo));
  const settled = shown.reduce((a, b) => (distance(b) < distance(a) ? b : a));
  return shown.map((rung) => rungLine(rung, most, rung === settled ? '← settles here' : '')).join('\n');
}

const TRACE_COLUMNS = 64;
const TRACE_ROWS = 16;

/** Where the ladder went: time to the right, tempo upwards, each column the mean of its repetitions. */
export function tempoChart(bpms: readonly Bpm[]): string {
  const columns = Math.min(TRACE_COLUMNS, bpms.length);
  const means = Array.from({ length: columns }, (_, i) => {
    const part = bpms.slice(Math.floor((i * bpms.length) / columns), Math.floor(((i + 1) * bpms.length) / columns));
    return Math.log(part.reduce((sum, bpm) => sum + bpm, 0) / part.length);
  });
  const [low, high] = [Math.min(...means), Math.max(...means)];
  const rows = high > low ? TRACE_ROWS : 1;
  const rowOf = (mean: number): number => (rows === 1 ? 0 : Math.round(((mean - low) / (high - low)) * (rows - 1)));
  return Array.from({ length: rows }, (_, i) => {
    const row = rows - 1 - i;
    const bpm = Math.exp(low + ((high - low) * row) / Math.max(rows - 1, 1));
    return `${bpmText(Math.round(bpm)).padStart(7)} │${means
      .map((mean) => (rowOf(mean) === row ? '•' : ' '))
      .join('')
      .trimEnd()}`;
  }).join('\n');
}
