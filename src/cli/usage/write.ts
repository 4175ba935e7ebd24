import type { Command } from 'commander';
import type { WriteOptions } from '../commands/write.ts';
import { withDrillOptions } from '../options/drill-options.ts';

/** `standside write EXERCISE --out FILE`: a page for the music stand. */
export function addWriteCommand(program: Command): void {
  withDrillOptions(program.command('write'))
    .description('write an exercise out for the music stand, syllables under the notes: MusicXML 4.0 or ABC 2.1')
    .requiredOption('--out <file>', 'where to: FILE.musicxml or FILE.abc')
    .option('--force', 'replace a file that is already there')
    .action(async (exercise: string, _: unknown, command: Command) => {
      const { write } = await import('../commands/write.ts');
      await write(exercise, command.optsWithGlobals<WriteOptions>());
    });
}
