import type { Command } from 'commander';
import type { DoctorOptions } from '../commands/doctor.ts';

/** `standside doctor`: what sounds on this machine, and what does not and why. */
export function addDoctorCommand(program: Command): void {
  program
    .command('doctor')
    .description('look at the sound of this machine and play a test (turn headphones down first)')
    .option('--device <name>', 'try this device instead of that of the settings')
    .option('--no-play', 'open the device, but play nothing')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { doctor } = await import('../commands/doctor.ts');
      await doctor(command.optsWithGlobals<DoctorOptions>());
    });
}
