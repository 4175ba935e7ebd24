import type { Command } from 'commander';
import type { SoundOptions } from '../commands/sound.ts';

/** `standside sound`: what sounds on this machine, and what does not and why. */
export function addSoundCommand(program: Command): void {
  program
    .command('sound')
    .description('look at the sound of this machine and play a test (turn headphones down first)')
    .option('--device <name>', 'try this device instead of that of the settings')
    .option('--no-play', 'open the device, but play nothing')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { sound } = await import('../commands/sound.ts');
      await sound(command.optsWithGlobals<SoundOptions>());
    });
}
