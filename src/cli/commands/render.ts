import type { Rendering } from '../../audio/file/rendering.ts';
import type { SampleFormat } from '../../audio/file/wav.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';
import type { Seconds } from '../../common/units.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { type LineWords, openingAsked } from '../../runtime/asked/opening-asked.ts';
import { type FileAsk, type RenderAsk, renderFile, renderingOf } from '../../runtime/asked/rendering-asked.ts';
import { knownLines } from '../../runtime/keepers.ts';
import { exerciseNamed } from '../files/exercise-by-name.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { numberOption, wholeNumber } from '../options/number-option.ts';
import { printJson, printText } from '../output/print.ts';

export interface RenderOptions extends LineWords, DataOption {
  readonly bars?: string;
  readonly times: string;
  readonly drone?: boolean;
  readonly model?: boolean;
  readonly rate: string;
  readonly format: string;
  readonly tail?: boolean;
  readonly out: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

const MOST_BARS = 10_000;
const MOST_TIMES = 10_000;

const barsOf = ({ bars }: RenderOptions): number | null =>
  bars === undefined ? null : numberOption(bars, { option: 'bars', ...wholeNumber(1, MOST_BARS) });

function formatOf({ format }: RenderOptions): SampleFormat {
  if (format === '16' || format === '24' || format === 'float') return format;
  throw new Trouble(`--format '${harmless(format, 20)}': give 16, 24 or float.`);
}

const fileOf = (options: RenderOptions): FileAsk => ({
  path: options.out,
  rate: numberOption(options.rate, { option: 'rate', ...wholeNumber(8000, 192_000) }),
  format: formatOf(options),
  tail: options.tail ?? false,
  force: options.force ?? false,
});

async function askOf(name: string, options: RenderOptions): Promise<RenderAsk> {
  const folder = dataFolderOf(options);
  const found = await exerciseNamed(folder, name);
  const settings = await playersSettings(folder);
  return {
    opening: openingAsked(found, options, settings, knownLines(journalSoFar(folder))),
    bars: barsOf(options),
    times: numberOption(options.times, { option: 'times', ...wholeNumber(1, MOST_TIMES) }),
    drone: options.drone ?? false,
    model: options.model ?? false,
    volume: settings.volume,
  };
}

function lengthText(length: Seconds): string {
  const seconds = Math.round(length);
  return `${Math.floor(seconds / 60)} min ${seconds % 60} s`;
}

function print({ spans }: Rendering, seconds: Seconds, { out, json }: RenderOptions): void {
  const bpm = spans[0]?.tempo.bpm ?? 0;
  const bars = spans.reduce((sum, span) => sum + (span.bars ?? 0), 0);
  if (json) return printJson({ file: out, bpm, bars, seconds: Number(seconds.toFixed(3)) });
  printText(`${harmless(out, 200)}: ${bars} bars at ${bpmText(bpm)}, ${lengthText(seconds)}\n`);
}

export async function render(name: string, options: RenderOptions): Promise<void> {
  const file = fileOf(options);
  const rendering = renderingOf(await askOf(name, options));
  print(rendering, renderFile(rendering, file), options);
}
