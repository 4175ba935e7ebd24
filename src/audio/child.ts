/**
 * The process that makes the sound. It is apart because the native libraries print to the terminal,
 * may end their process, and keep a thread spinning when the sound server dies.
 */
import type { Milliseconds } from '../music/units.ts';
import type { Device } from './device.ts';
import { openDevice } from './devices.ts';
import { type Feeder, createFeeder } from './feeder.ts';
import { type DeviceSettings, type FromChild, type ToChild, sharedClock } from './protocol.ts';
import { loadKit } from './voices.ts';

const FEED: Milliseconds = 25;
const HEARTBEAT: Milliseconds = 100;
/** A device that takes no sound for so long is gone; it gets longer to begin. */
const STALLED: Milliseconds = 500;
const STARTING: Milliseconds = 2500;
const RETRY: Milliseconds = 1000;

const settings = JSON.parse(process.argv[2] ?? '{}') as DeviceSettings;
const tell = (message: FromChild): void => void process.send?.(message);

/** Ends at once: an orderly exit would wait for a native thread that may never answer. */
const end = (): void => void process.kill(process.pid, 'SIGKILL');

function watch(device: Device): void {
  let last = device.position();
  let since = sharedClock();
  let started = false;
  setInterval(() => {
    const position = device.position();
    const now = sharedClock();
    if (position !== last) {
      started ||= last > 0;
      [last, since] = [position, now];
    } else if (now - since > (started ? STALLED : STARTING)) {
      tell({ from: 'lost', reason: 'the device takes no more sound' });
      // The message must have left before the process does.
      setTimeout(end, 50);
      since = Infinity;
    }
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
  tell({ from: 'opened', output: { backEnd: device.backEnd, device: device.name, rate: device.rate, latency: device.latency } });
}

async function open(isFirst: boolean): Promise<void> {
  const device = await openDevice(settings, (backEnd) => {
    if (isFirst) tell({ from: 'trying', backEnd });
  });
  if ('position' in device) return serve(device);
  if (isFirst) tell({ from: 'failed', attempts: device });
  setTimeout(() => void open(false), RETRY);
}

// Bounds the delay of ALSA's way to PulseAudio, which is up to two seconds otherwise.
process.env['PULSE_LATENCY_MSEC'] ??= settings.latency === 'safe' ? '60' : '30';
process.on('message', (message: ToChild) => {
  if (message.to === 'close') end();
});
process.on('disconnect', end);
void open(true);
