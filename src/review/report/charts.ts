/** The charts of the report: drawn once, in colours that the page's style names; pure. */
import { scaleBand, scaleLinear } from 'd3-scale';
import { line as pathOf } from 'd3-shape';
import { dayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { words } from './markup.ts';

const n = (value: number): string => String(Math.round(value * 10) / 10);

interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** Says in words what is seen. */
  readonly said: string;
}

function drawn({ width, height, title, said }: Drawing, id: string, marks: string): string {
  return (
    `<svg viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${id}t ${id}d">` +
    `<title id="${id}t">${words(title)}</title><desc id="${id}d">${words(said, 300)}</desc>${marks}</svg>`
  );
}

export interface Bar {
  readonly label: string;
  readonly value: number;
}

const SPACE = { left: 34, right: 6, top: 8, bottom: 20 } as const;

/** Bars over a scale that starts at nothing. */
export function barChart(id: string, title: string, said: string, bars: readonly Bar[]): string {
  const [width, height] = [640, 180];
  const x = scaleBand(
    bars.map((_, index) => `${index}`),
    [SPACE.left, width - SPACE.right],
  ).padding(0.25);
  const most = Math.max(1, ...bars.map(({ value }) => value));
  const y = scaleLinear([0, most], [height - SPACE.bottom, SPACE.top]).nice(4);
  const every = Math.max(1, Math.ceil(bars.length / 8));
  const ticks = y
    .ticks(4)
    .map(
      (value) =>
        `<path class="grid" d="M${SPACE.left} ${n(y(value))}H${width - SPACE.right}"/>` +
        `<text class="end" x="${SPACE.left - 4}" y="${n(y(value) + 4)}">${value}</text>`,
    );
  const shapes = bars.map(({ label, value }, index) => {
    const at = x(`${index}`) ?? 0;
    const name = index % every === 0 ? `<text x="${n(at)}" y="${height - 5}">${words(label)}</text>` : '';
    const tall = y(0) - y(value);
    return `<rect x="${n(at)}" y="${n(y(value))}" width="${n(x.bandwidth())}" height="${n(tall)}"/>${name}`;
  });
  return drawn({ width, height, title, said }, id, [...ticks, ...shapes].join(''));
}

/** A tempo by day, with a line at the target. */
export interface TempoDay {
  readonly day: string;
  readonly bpm: Bpm | null;
}

/** A week without playing breaks the line. */
const GAP = 7;

function withGaps(days: readonly TempoDay[]): readonly TempoDay[] {
  return days.flatMap((one, index) => {
    const before = days[index - 1];
    return before && dayNumber(one.day) - dayNumber(before.day) > GAP ? [{ ...one, bpm: null }, one] : [one];
  });
}

export function tempoChart(
  id: string,
  { title, said, from, to }: { title: string; said: string; from: string; to: string },
  days: readonly TempoDay[],
  target: Bpm | null,
): string {
  const [width, height] = [640, 120];
  const known = days.flatMap(({ bpm }) => bpm ?? []);
  const tempos = [...known, ...(target === null ? [] : [target])];
  const [low, high] = tempos.length > 0 ? [Math.min(...tempos), Math.max(...tempos)] : [60, 120];
  const x = scaleLinear([dayNumber(from), dayNumber(to)], [SPACE.left, width - SPACE.right]);
  const y = scaleLinear([low - 4, high + 4], [height - SPACE.bottom, SPACE.top]).nice(3);
  const ticks = y
    .ticks(3)
    .map(
      (bpm) =>
        `<path class="grid" d="M${SPACE.left} ${n(y(bpm))}H${width - SPACE.right}"/>` +
        `<text class="end" x="${SPACE.left - 4}" y="${n(y(bpm) + 4)}">${bpm}</text>`,
    );
  const path = pathOf<TempoDay>()
    .defined(({ bpm }) => bpm !== null)
    .x(({ day }) => Math.round(x(dayNumber(day)) * 10) / 10)
    .y(({ bpm }) => Math.round(y(bpm ?? 0) * 10) / 10);
  const dots = days.flatMap(({ day, bpm }) =>
    bpm === null ? [] : [`<circle cx="${n(x(dayNumber(day)))}" cy="${n(y(bpm))}" r="1.8"/>`],
  );
  const aim = target === null ? '' : `<path class="target" d="M${SPACE.left} ${n(y(target))}H${width - SPACE.right}"/>`;
  const ends =
    `<text x="${SPACE.left}" y="${height - 4}">${from}</text>` +
    `<text class="end" x="${width - SPACE.right}" y="${height - 4}">${to}</text>`;
  const marks = [...ticks, aim, `<path class="line" d="${path([...withGaps(days)]) ?? ''}"/>`, ...dots, ends].join('');
  return drawn({ width, height, title, said }, id, marks);
}

/** Where a line stands between its start and its target, with its interval; the cells beside it say it in numbers. */
export function trackChart(start: Bpm, target: Bpm, now: Bpm | null, low: Bpm | null, high: Bpm | null): string {
  const x = scaleLinear([Math.min(start, now ?? start), Math.max(target, now ?? target)], [4, 116]).clamp(true);
  const interval = low !== null && high !== null ? `<path class="interval" d="M${n(x(low))} 8H${n(x(high))}"/>` : '';
  const here = now === null ? '' : `<circle cx="${n(x(now))}" cy="8" r="3.5"/>`;
  return (
    `<svg class="track" viewBox="0 0 120 16" aria-hidden="true">` +
    `<path class="grid" d="M${n(x(start))} 8H${n(x(target))}"/>` +
    `<path class="goal" d="M${n(x(target))} 3V13"/>${interval}${here}</svg>`
  );
}
