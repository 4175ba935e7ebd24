import type { Command } from 'commander';
import type { Findings } from '../../audio/sound-check.ts';
import { printJson } from '../saved-data.ts';

interface Options {
  readonly device?: string;
  readonly play: boolean;
  readonly json?: boolean;
}

type Line = readonly [name: string, value: string];

/** What was found, a line each. */
export function doctorLines({ output, devices, attempts, sentence, played }: Findings): readonly Line[] {
  const out: readonly Line[] = output
    ? [
        ['sound', 'on'],
        ['device', output.device],
        ['through', output.backEnd],
        ['rate', `${output.rate} Hz`],
        ['to the ear', `about ${Math.round(output.latency * 1000)} ms`],
        ['test', played ? 'played: two bars of click over a drone' : 'not played'],
      ]
    : [['sound', sentence]];
  const failed = attempts.map(({ backEnd, reason }): Line => ['not through', `${backEnd}: ${reason}`]);
  return [...out, ...failed, ['devices', devices.join(', ') || 'none found']];
}

/** `standside doctor`: what sounds on this machine, and what does not and why. Exit code 1 where nothing does. */
export function addDoctorCommand(program: Command): void {
  program
    .command('doctor')
    .description('look at the sound of this machine and play a test (turn headphones down first)')
    .option('--device <name>', 'try this device instead of that of the settings')
    .option('--no-play', 'open the device, but play nothing')
    .option('--json', 'print JSON')
    .action(async (options: Options, command: Command) => {
      const { examine } = await import('../../audio/sound-check.ts');
      const { askedFolder } = await import('../saved-data.ts');
      const { readSettings } = await import('../../runtime/files/settings.ts');
      const { harmless } = await import('../../common/harmless-text.ts');
      const { settings } = await readSettings((await askedFolder(command)).path);
      const device = options.device ?? settings.device;
      const found = await examine({ device, latency: settings.latency, play: options.play });
      if (options.json) printJson(found);
      else
        for (const [name, value] of doctorLines(found))
          process.stdout.write(`${name.padEnd(12)} ${harmless(value, 300)}\n`);
      process.exitCode = found.output ? 0 : 1;
    });
}
