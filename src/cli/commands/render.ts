import { bpmText } from '../../music/time/tempo-text.ts';
import type { Command } from 'commander';
import type { SampleFormat } from '../../audio/file/wav.ts';
import type { RenderAsk } from '../../runtime/asked/rendering-asked.ts';

interface Options {
  readonly tempo?: string;
  readonly key?: string;
  readonly articulation?: string;
  readonly bars?: string;
  readonly times: string;
  readonly drone?: boolean;
  readonly model?: boolean;
  readonly rate: string;
  readonly format: string;
  readonly out: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** A whole number in a range; throws Trouble that names the option. */
async function wholeNumber(option: string, word: string, low: number, high: number): Promise<number> {
  const { Trouble } = await import('../../common/trouble.ts');
  const { harmless } = await import('../../common/harmless-text.ts');
  const value = Number(word);
  if (word.trim() !== '' && Number.isInteger(value) && value >= low && value <= high) return value;
  throw new Trouble(`--${option} '${harmless(word, 20)}': give a whole number from ${low} to ${high}.`);
}

async function sampleFormat(word: string): Promise<SampleFormat> {
  const { Trouble } = await import('../../common/trouble.ts');
  const { harmless } = await import('../../common/harmless-text.ts');
  if (word === '16' || word === '24' || word === 'float') return word;
  throw new Trouble(`--format '${harmless(word, 20)}': give 16, 24 or float.`);
}

/** The line, at the tempo where it was left unless another is asked for. */
async function askOf(exerciseId: string, options: Options, command: Command): Promise<RenderAsk> {
  const { findExercise } = await import('../../runtime/files/routine-finder.ts');
  const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
  const { readSettings } = await import('../../runtime/files/settings.ts');
  const { lineRule } = await import('../../plan/rotation/multiple-tonguing-steps.ts');
  const { prepareFor } = await import('../../practice/line/line-notes.ts');
  const { lineAsked } = await import('../../runtime/asked/line-asked.ts');
  const { knownLines } = await import('../../runtime/keepers.ts');
  const { lineName } = await import('../../ladder/line.ts');
  const { climbOf } = await import('../../ladder/speed/line-history.ts');
  const { startAt } = await import('../../ladder/rule/climb.ts');
  const { DEFAULT_INSTRUMENT, INSTRUMENTS, instrumentNamed } = await import('../../music/pitch/instruments.ts');
  const { askedFolder, savedFold } = await import('../saved-data.ts');

  const folder = await askedFolder(command);
  const loaded = await routinesOf(folder.path);
  const { exercise, routine } = findExercise(loaded, exerciseId);
  const { settings } = await readSettings(folder.path);
  const usual = {
    exercise: exercise.id,
    key: exercise.keys[0] ?? 'C',
    articulation: exercise.articulations[0] ?? 'slurred',
  };
  const words = { key: options.key ?? null, articulation: options.articulation ?? null, tempo: options.tempo ?? null };
  const { line, tempo } = lineAsked(exercise, { exercise: exercise.id, ...words }, usual);
  const instrument = instrumentNamed(settings.instrument ?? routine.instrument ?? DEFAULT_INSTRUMENT) ?? INSTRUMENTS[0];
  if (!instrument) throw new Error('the table of instruments is empty');
  const prepared = prepareFor(instrument, settings.a4, settings.syllables)(exercise, line);
  const known = knownLines(await savedFold(command))[lineName(line)];
  const bpm = tempo ?? known?.bpm ?? lineRule(exercise, line.articulation).start;
  const climb = known?.bpm === bpm ? climbOf(known) : startAt(bpm, known?.best?.bpm ?? null);
  return {
    opening: { exercise, line, key: line.key, fingering: 'ordinary', climb, ...prepared },
    bars: options.bars === undefined ? null : await wholeNumber('bars', options.bars, 1, 10_000),
    times: await wholeNumber('times', options.times, 1, 10_000),
    drone: options.drone ?? false,
    model: options.model ?? false,
    volume: settings.volume,
  };
}

async function render(exercise: string, options: Options, command: Command): Promise<void> {
  const { renderFile, renderingOf } = await import('../../runtime/asked/rendering-asked.ts');
  const ask = await askOf(exercise, options, command);
  const rendering = renderingOf(ask);
  const rate = await wholeNumber('rate', options.rate, 8000, 192_000);
  const file = { path: options.out, rate, format: await sampleFormat(options.format), force: options.force ?? false };
  const seconds = renderFile(rendering, file);
  const bpm = rendering.spans[0]?.tempo.bpm ?? 0;
  const bars = rendering.spans.reduce((sum, span) => sum + (span.bars ?? 0), 0);
  const summary = { file: options.out, bpm, bars, seconds: Number(seconds.toFixed(3)) };
  const text =
    `${options.out}: ${bars} bars at ${bpmText(bpm)}, ${Math.floor(seconds / 60)} min ` +
    `${Math.round(seconds % 60)} s\n`;
  process.stdout.write(options.json ? `${JSON.stringify(summary, null, 2)}\n` : text);
}

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
    .option('--force', 'replace a file that is already there')
    .option('--json', 'print JSON')
    .action((exercise: string, options: Options, command: Command) => render(exercise, options, command));
}
