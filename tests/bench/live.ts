/**
 * `npm run bench:live [seconds]`: plays into a null sink while another process keeps one core busy, records
 * the sink's monitor, and holds what was heard against the arithmetic; then the same for a plain timer loop
 * and for a MIDI click played by fluidsynth. Needs Debian's pulseaudio, pulseaudio-utils, fluidsynth, fluid-soundfont-
 * gm.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Sound, createSound } from '../../src/audio/process/client.ts';
import { encodeMidi } from '../../src/audio/file/midi.ts';
import { sharedClock } from '../../src/audio/process/protocol.ts';
import { COMMON_TIME, quarterTempo } from '../../src/music/time/meter.ts';
import { type Drone, PLAIN_CLICK, type Span } from '../../src/music/sound/sound-commands.ts';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import { edges, evenness, findOnsets, peakOf, sizes } from './live/onsets.ts';
import { type Recording, record } from './live/recorder.ts';
import { RATE, type Server, startServer } from './live/server.ts';

const SECONDS = Number(process.argv[2] ?? 60);
const folder = mkdtempSync(join(tmpdir(), 'standside-bench-'));
const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const spanAt = (bpm: number, subdivision: number, bars: number | null): Span => ({
  id: 'pulse',
  role: 'free',
  tempo: quarterTempo(bpm),
  meter: COMMON_TIME,
  bars,
  click: { ...PLAIN_CLICK, voice: 'stick', subdivision },
  gain: 1,
  model: [],
});

const DRONE: Drone = { ...PLAIN_DRONE, voices: ['tonic', 'fifth', 'octave', 'major-third'], timbre: 'organ' };
const EDGE = 0.05;

function busyCore(): ChildProcess {
  return spawn(process.execPath, ['-e', 'for (;;) {}'], { stdio: 'ignore' });
}

const openSound = (latency: 'low' | 'safe' = 'low'): Promise<Sound> =>
  new Promise((resolve) => {
    const sound = createSound({ backEnds: ['web-audio'], latency, logFile: join(folder, 'sound.log') });
    sound.listen((report) => {
      if (report.tell === 'output' && report.state === 'sounding') resolve(sound);
    });
  });

function print(name: string, values: Readonly<Record<string, number | string>>): void {
  const line = Object.entries(values).map(
    ([key, value]) => `${key} ${typeof value === 'number' ? Number(value.toFixed(2)) : value}`,
  );
  process.stdout.write(`${name.padEnd(34)} ${line.join(' · ')}\n`);
}

/** Dead air: the drone is never silent for two milliseconds unless sound was dropped. */
function dropOuts(samples: Float32Array, from: number, to: number): number {
  let gaps = 0;
  let silent = 0;
  for (let i = from; i < to; i++) {
    silent = Math.abs(samples[i] ?? 0) < 1e-4 ? silent + 1 : 0;
    if (silent === 96) gaps++;
  }
  return gaps;
}

/** Where strokes sound alone, those that reach a third of the loudest count. */
function measureAlone(recording: Recording, bpm: number, expected: number): Readonly<Record<string, number>> {
  const period = (60 / bpm / 4) * RATE;
  const signal = sizes(recording.samples);
  return { ...evenness(findOnsets(signal, peakOf(signal) / 3, period / 2), period, expected, RATE) };
}

async function program(server: Server, bpm: number): Promise<void> {
  const recorder = record(server);
  const sound = await openSound();
  const shown: number[] = [];
  sound.listen((r) => r.tell === 'beat' && shown.push(sharedClock() - r.lateBy));
  const bars = Math.ceil((SECONDS * bpm) / 240);
  const ended = new Promise<void>((resolve) => sound.listen((r) => r.tell === 'end' && resolve()));
  sound.send({ ask: 'drone', drone: DRONE });
  await sleep(500);
  sound.send({ ask: 'play', spans: [spanAt(bpm, 4, bars)] });
  await ended;
  await sleep(300);
  const recording = recorder.stop();
  await sound.close();
  const period = (60 / bpm / 4) * RATE;
  const onsets = findOnsets(edges(recording.samples), EDGE, Math.min(1500, period / 2));
  const heard = onsets.filter((_, i) => i % 4 === 0).map(recording.timeOf);
  const apart = shown.slice(0, heard.length).map((at, i) => at - (heard[i] ?? at));
  print(`program, ${bpm} in sixteenths + drone`, {
    ...evenness(onsets, period, bars * 16, RATE),
    'drop-outs': dropOuts(recording.samples, onsets[0] ?? 0, onsets.at(-1) ?? 0),
    'shown - heard ms': `${Math.min(...apart).toFixed(1)} to ${Math.max(...apart).toFixed(1)}`,
  });
}

const isStill = (samples: Float32Array, i: number): boolean =>
  samples.subarray(i, i + 240).every((x) => Math.abs(x) < 1e-4);

/** The first frame after a moment, on the shared clock, from which something holds; NaN where it never does. */
function delayUntil({ samples, timeOf }: Recording, at: number, holds: (frame: number) => boolean): number {
  for (let i = 0; i < samples.length; i++) if (timeOf(i) > at && holds(i)) return timeOf(i) - at;
  return NaN;
}

function range(values: readonly number[]): Readonly<Record<string, number>> {
  const found = values.filter(Number.isFinite).sort((a, b) => a - b);
  return {
    tries: values.length,
    found: found.length,
    'least ms': found[0] ?? NaN,
    'middle ms': found[found.length >> 1] ?? NaN,
    'most ms': found.at(-1) ?? NaN,
  };
}

/** From asking for a drone, and for its end, to the first frame that sounds, and to the first silence. */
async function keyToDrone(server: Server, latency: 'low' | 'safe'): Promise<void> {
  const recorder = record(server);
  const sound = await openSound(latency);
  const [on, off]: [number[], number[]] = [[], []];
  for (let i = 0; i < 10; i++) {
    await sleep(600 + 37 * i);
    on.push(sharedClock());
    sound.send({ ask: 'drone', drone: DRONE });
    await sleep(600);
    off.push(sharedClock());
    sound.send({ ask: 'drone', drone: null });
  }
  await sleep(800);
  const recording = recorder.stop();
  await sound.close();
  const { samples } = recording;
  print(
    `key to drone (${latency})`,
    range(on.map((at) => delayUntil(recording, at, (i) => Math.abs(samples[i] ?? 0) > 1e-3))),
  );
  print(`key to silence (${latency})`, range(off.map((at) => delayUntil(recording, at, (i) => isStill(samples, i)))));
}

async function timerLoop(server: Server, bpm: number): Promise<void> {
  const recorder = record(server);
  const period = 60_000 / bpm / 4;
  const entry = join(dirname(fileURLToPath(import.meta.url)), 'timer-loop.js');
  const child = spawn(process.execPath, [entry, `${period}`, `${SECONDS}`], { env: process.env, stdio: 'ignore' });
  await new Promise((resolve) => child.on('exit', resolve));
  print(`plain timer loop, ${bpm}`, measureAlone(recorder.stop(), bpm, Math.round((SECONDS * 1000) / period)));
}

async function fluidsynth(server: Server, bpm: number): Promise<void> {
  const file = join(folder, 'click.mid');
  const bars = Math.ceil((SECONDS * bpm) / 240);
  const span = spanAt(bpm, 4, bars);
  writeFileSync(
    file,
    encodeMidi([{ ...span, click: { ...span.click, levels: { bar: 1, group: 1, beat: 1, subdivision: 1 } } }], null),
  );
  const recorder = record(server);
  // No reverb and no chorus: their tails would hide the next stroke.
  const args = [
    '-a',
    'pulseaudio',
    '-i',
    '-q',
    '-R',
    '0',
    '-C',
    '0',
    '-g',
    '1',
    '/usr/share/sounds/sf2/FluidR3_GM.sf2',
    file,
  ];
  const child = spawn('fluidsynth', args, { env: server.env, stdio: 'ignore' });
  await new Promise((resolve) => child.on('exit', resolve).on('error', resolve));
  print(`MIDI click, fluidsynth, ${bpm}`, measureAlone(recorder.stop(), bpm, bars * 16));
}

async function main(): Promise<void> {
  const server = await startServer();
  Object.assign(process.env, server.env);
  const load = busyCore();
  process.stdout.write(
    `${SECONDS} s each, one core kept busy; load average before (more than 1 spoils the figures): ` +
      `${loadavg()[0]?.toFixed(1)} on ${cpus().length} cores\n`,
  );
  try {
    for (const bpm of [73, 137, 208]) await program(server, bpm);
    await keyToDrone(server, 'low');
    await keyToDrone(server, 'safe');
    for (const bpm of [73, 137, 208]) await timerLoop(server, bpm);
    for (const bpm of [73, 137, 208]) await fluidsynth(server, bpm);
  } finally {
    load.kill();
    server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

await main();
process.exit(0);
