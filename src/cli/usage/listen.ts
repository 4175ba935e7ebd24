import type { Command } from 'commander';
import type { ListenOptions } from '../commands/listen.ts';
import type { TendenciesOptions } from '../commands/tendencies.ts';

/** `standside listen FILE.wav`: what a recording says of pitch, vibrato, long tones and time. */
export function addListenCommand(program: Command): void {
  program
    .command('listen')
    .description('hear a recording: pitch against the exercise’s notes, vibrato, long tones, time (experimental)')
    .argument('<file>', 'a WAV file of your playing, without the click in it; nothing of its sound is kept')
    .option('--exercise <name>', 'what is played in it, once; without one every long tone is heard by itself')
    .option('--key <key>', 'written key (default: the first of the exercise)')
    .option('--articulation <name>', 'the way of tonguing (default: the first of the exercise)')
    .option('--tempo <bpm>', 'beats per minute (default: the exercise’s start)')
    .option('--start <seconds>', 'when its first beat is, from the beginning of the file (default: the first sound)')
    .option('--tuning <name>', 'just or equal (default: that of the exercise’s drone, or equal)')
    .option('--instrument <name>', 'like cornet or eb-bass (default: that of the settings or the routine)')
    .option('--range <notes>', 'lowest and highest written note, like "F#3 to C6" (default: the instrument’s)')
    .option('--fit <how>', 'where it leaves the range: octave or short, as for drill')
    .option('--keep', 'keep where the notes lay in the journal, as numbers, for the map of tendencies')
    .option('--json', 'print JSON, with the pitch line of each note')
    .action(async (file: string, _: unknown, command: Command) => {
      const { listen } = await import('../commands/listen.ts');
      await listen(file, command.optsWithGlobals<ListenOptions>());
    });
}

/** `standside tendencies`: where each written note lies, over the weeks. */
export function addTendenciesCommand(program: Command): void {
  program
    .command('tendencies')
    .description('print where each written note lies, high or low, from all recordings that were kept')
    .option('--instrument <name>', 'like cornet or eb-bass (default: that of the settings, or cornet)')
    .option('--weeks <n>', 'how many weeks back', '12')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { tendencies } = await import('../commands/tendencies.ts');
      await tendencies(command.optsWithGlobals<TendenciesOptions>());
    });
}
