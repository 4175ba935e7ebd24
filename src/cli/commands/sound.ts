import { type Findings, examine } from '../../audio/sound-check.ts';
import { harmless } from '../../common/harmless-text.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson, printLines } from '../output/print.ts';

export interface SoundOptions extends DataOption {
  readonly device?: string;
  readonly play: boolean;
  readonly json?: boolean;
}

type Row = readonly [name: string, value: string];

const outputRows = ({ output, played, sentence }: Findings): readonly Row[] =>
  output === null
    ? [['sound', sentence]]
    : [
        ['sound', 'on'],
        ['device', output.device],
        ['through', output.backEnd],
        ['rate', `${output.rate} Hz`],
        ['to the ear', `about ${Math.round(output.latency * 1000)} ms`],
        ['test', played ? 'played: two bars of click over a drone' : 'not played'],
      ];

const rows = (found: Findings): readonly Row[] => [
  ...outputRows(found),
  ...found.attempts.map(({ backEnd, reason }): Row => ['not through', `${backEnd}: ${reason}`]),
  ['devices', found.devices.join(', ') || 'none found'],
];

/** Exit code 1 where nothing sounds. */
export async function sound(options: SoundOptions): Promise<void> {
  const settings = await playersSettings(dataFolderOf(options));
  const device = options.device ?? settings.device;
  const found = await examine({ device, latency: settings.latency, play: options.play });
  if (options.json) printJson(found);
  else printLines(rows(found).map(([name, value]) => `${name.padEnd(12)} ${harmless(value, 300)}`));
  process.exitCode = found.output ? 0 : 1;
}
