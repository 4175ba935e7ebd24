import { harmless } from '../../common/harmless-text.ts';
import { writeDrill } from '../../runtime/asked/drill-asked.ts';
import { type DrillOfExerciseOptions, drillOfExercise } from '../files/drill-of-exercise.ts';
import { printText, remark } from '../output/print.ts';

export interface WriteOptions extends DrillOfExerciseOptions {
  readonly out: string;
  readonly force?: boolean;
}

export async function write(name: string, options: WriteOptions): Promise<void> {
  const { title, drill, bpm } = await drillOfExercise(name, options);
  const subtitle = `${drill.tonality.name}, ${drill.articulation.name}`;
  writeDrill(options.out, drill, { title, subtitle, bpm }, options.force ?? false);
  printText(`${harmless(options.out, 200)}: ${title}, ${subtitle}, ${drill.bars} bars\n`);
  for (const sentence of drill.remarks) remark(sentence);
}
