import type { Command } from 'commander';
import { type DrillOptions, drillReport, withDrillOptions } from './drill.ts';

interface Options extends DrillOptions {
  readonly out: string;
  readonly force?: boolean;
}

async function write(exercise: string, options: Options, command: Command): Promise<void> {
  const { writeDrill } = await import('../../runtime/asked/drill-asked.ts');
  const { harmless } = await import('../../common/harmless-text.ts');
  const { title, drill, bpm } = await drillReport(exercise, options, command);
  const subtitle = `${drill.tonality.name}, ${drill.articulation.name}`;
  writeDrill(options.out, drill, { title, subtitle, bpm }, options.force ?? false);
  process.stdout.write(`${harmless(options.out, 200)}: ${title}, ${subtitle}, ${drill.bars} bars\n`);
  for (const remark of drill.remarks) process.stderr.write(`standside: ${remark}\n`);
}

/** `standside write EXERCISE --out FILE`: a page for the music stand. */
export function addWriteCommand(program: Command): void {
  withDrillOptions(program.command('write'))
    .description('write an exercise out for the music stand, syllables under the notes: MusicXML 4.0 or ABC 2.1')
    .requiredOption('--out <file>', 'where to: FILE.musicxml or FILE.abc')
    .option('--force', 'replace a file that is already there')
    .action(write);
}
