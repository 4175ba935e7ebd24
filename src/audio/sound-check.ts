/** What can be said about the sound of this machine, and a test that can be heard. */
import { COMMON_TIME, quarterTempo } from '../music/time/meter.ts';
import { PLAIN_CLICK, type Span } from '../music/sound/sound-commands.ts';
import { PLAIN_DRONE } from '../music/pitch/tuning.ts';
import type { Milliseconds } from '../common/units.ts';
import { type Sound, type SoundOptions, createSound } from './process/client.ts';
import type { Attempt, OutputInfo } from './process/protocol.ts';

export interface Findings {
  readonly output: OutputInfo | null;
  readonly devices: readonly string[];
  /** What could not be opened, and why. */
  readonly attempts: readonly Attempt[];
  readonly sentence: string;
  /** Whether the test was played to its end. */
  readonly played: boolean;
}

const wait = (ms: Milliseconds): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** An idle sound server may need two seconds to wake up. */
const PATIENCE: Milliseconds = 5000;

/** Resolves with what is said of the output once it is settled. */
async function settled(sound: Sound): Promise<string> {
  let sentence = '';
  sound.listen((report) => {
    if (report.tell === 'output') sentence = report.sentence;
  });
  for (let waited = 0; waited < PATIENCE; waited += 20) {
    await wait(20);
    if (sound.output() || (sentence !== '' && sound.attempts().length > 0)) break;
  }
  return sentence;
}

const testBars: Span = {
  id: 'test',
  role: 'free',
  tempo: quarterTempo(120),
  meter: COMMON_TIME,
  bars: 2,
  click: { ...PLAIN_CLICK, subdivision: 2 },
  gain: 1,
  model: [],
};

/** Two bars of click over a drone that fades in and out, at the level that practice starts with. */
async function playTest(sound: Sound): Promise<void> {
  const ended = new Promise<void>((resolve) => sound.listen((report) => report.tell === 'end' && resolve()));
  sound.send({ ask: 'drone', drone: PLAIN_DRONE });
  sound.send({ ask: 'play', spans: [testBars] });
  await ended;
  sound.send({ ask: 'drone', drone: null });
  await wait(300);
}

/**
 * Opens the sound as practice would, plays a test if asked, and tells what it found. Never throws for want of sound.
 */
export async function examine(options: SoundOptions & { readonly play: boolean }): Promise<Findings> {
  const sound = createSound({ ...options, list: true });
  const sentence = await settled(sound);
  const output = sound.output();
  if (output && options.play) await playTest(sound);
  const played = options.play && output !== null && sound.output() !== null;
  const findings = { output, devices: sound.devices(), attempts: sound.attempts(), sentence, played };
  await sound.close();
  return findings;
}
