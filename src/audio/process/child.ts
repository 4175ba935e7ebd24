/**
 * The process that makes the sound. It is apart because the native libraries print to the terminal,
 * may end their process, and keep a thread spinning when the sound server dies.
 */
import { setPriority } from 'node:os';
import type { Milliseconds } from '../../common/units.ts';
import type { Device } from '../device/device.ts';
import { deviceNames, openDevice } from '../device/device-list.ts';
import { type Feeder, createFeeder } from '../device/device-feeder.ts';
import { type DeviceSettings, type FromChild, type ToChild, sharedClock } from './protocol.ts';
import { soundSurroundings } from './sound-system-state.ts';
import { loadKit } from '../mix/click-voices.ts';

const FEED: Milliseconds = 25;
const HEARTBEAT: Milliseconds = 100;
/** A device that takes no sound for so long is gone; it gets longer to begin. */
const STALLED: Milliseconds = 900;
const PATIENT: Milliseconds = 2500;
const STARTING: Milliseconds = 2500;

const settings = JSON.parse(process.argv[2] ?? '{}') as DeviceSettings;
const tell = (message: FromChild): void => void process.send?.(message);

/** Ends at once: an orderly exit would wait for a native thread that may never answer. */
const end = (): void => void process.kill(process.pid, 'SIGKILL');

/** Resolves once the device takes sound: an idle sound server may need a second to wake up. */
async function runs(device: Device): Promise<boolean> {
  const until = sharedClock() + STARTING;
  const before = device.position();
  while (sharedClock() < until) {
    if (device.position() > before) return true;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  return false;
}

/** Ends once the message has left. */
function endAfter(message: FromChild): void {
  tell(message);
  setTimeout(end, 50);
}

/**
 * A busy machine may hold up the device, the server and this process alike: only time in which this process was awake
 * counts, and more of it while the sound system around us looks as it did.
 */
function watch(device: Device): void {
  const around = soundSurroundings();
  let [last, before, still] = [device.position(), sharedClock(), 0];
  const timer = setInterval(() => {
    const [position, now] = [device.position(), sharedClock()];
    still = position === last ? still + Math.min(now - before, 2 * FEED) : 0;
    [last, before] = [position, now];
    if (still <= STALLED || (still <= PATIENT && soundSurroundings() === around)) return;
    clearInterval(timer);
    endAfter({ from: 'lost' });
  }, FEED);
}

function obey(feeder: Feeder, message: ToChild): void {
  if (message.to === 'take') feeder.take(message.score, message.heard + (sharedClock() - message.at) / 1000);
  if (message.to === 'do') tell({ from: 'done', id: message.id, now: feeder.command(message.command) });
}

function serve(device: Device): void {
  const feeder = createFeeder(device, loadKit(device.rate), sharedClock);
  process.on('message', (message: ToChild) => {
    obey(feeder, message);
  });
  setInterval(() => feeder.feed(), FEED);
  setInterval(() => tell({ from: 'position', heard: feeder.heard(), at: sharedClock() }), HEARTBEAT);
  watch(device);
  tell({
    from: 'opened',
    output: { backEnd: device.backEnd, device: device.name, rate: device.rate, latency: device.latency },
  });
}

/** One attempt: the native library remembers what it saw first, so another attempt takes another process. */
async function open(): Promise<void> {
  if (settings.list) tell({ from: 'devices', names: await deviceNames().catch(() => []) });
  const device = await openDevice(settings, {
    trying: (backEnd) => tell({ from: 'trying', backEnd }),
    refused: (attempt) => tell({ from: 'refused', attempt }),
  });
  if (device && (await runs(device))) return serve(device);
  if (device) tell({ from: 'refused', attempt: { backEnd: device.backEnd, reason: 'the device takes no sound' } });
  endAfter({ from: 'failed' });
}

/** Sound before everything else, where the system lets us; the threads of the native libraries inherit it. */
function goFirst(): void {
  try {
    setPriority(-11);
  } catch {
    // Most systems keep that to themselves; they run their sound server first anyway.
  }
}

goFirst();
// Bounds the delay of ALSA's way to PulseAudio, which is up to two seconds otherwise. Two of the library's blocks
// are the least: with less the server's buffer never fills, and nothing is heard at all.
process.env['PULSE_LATENCY_MSEC'] ??= settings.latency === 'safe' ? '200' : '57';
process.on('disconnect', end);
void open();
