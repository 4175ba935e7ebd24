import type { Command } from 'commander';
import type { RenderOptions } from '../commands/render.ts';

/** `standside render EXERCISE --out FILE`: the click of an exercise as a file. */
export function addRenderCommand(program: Command): void {
  program
    .command('render')
    .description('write the click of an exercise, count-in and breathing bars included, into a WAV or MIDI file')
    .argument('<exercise>', "its short name; 'standside exercises' lists them")
    .requiredOption('--out <file>', 'where to: FILE.wav or FILE.mid')
    .option('--tempo <bpm>', 'beats per minute (default: where the line was left)')
    .option('--key <key>', 'written key, for the drone and the model')
    .option('--articulation <name>', 'the way of tonguing, for the tempo and the model')
    .option('--bars <n>', "bars of each repetition (default: the exercise's)")
    .option('--times <n>', 'how many repetitions', '4')
    .option('--drone', 'with the drone, at concert pitch for the instrument')
    .option('--model', 'with the pattern played softly')
    .option('--rate <hertz>', 'sample rate of a WAV file', '48000')
    .option('--format <format>', 'samples of a WAV file: 16, 24 or float', '16')
    .option('--tail', 'let a WAV file die away after its last bar; without it the bars are exact, for looping')
    .option('--force', 'replace a file that is already there')
    .option('--json', 'print JSON')
    .action(async (exercise: string, _: unknown, command: Command) => {
      const { render } = await import('../commands/render.ts');
      await render(exercise, command.optsWithGlobals<RenderOptions>());
    });
}
