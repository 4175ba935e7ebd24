/** The tap test: the player taps a key with the click; the taps tell how late the click reaches them. */
import { createSound } from '../audio/process/client.ts';
import { sharedClock } from '../audio/process/protocol.ts';
import { type TapResult, offsetFromTaps } from '../audio/tap-offset.ts';
import { COMMON_TIME, quarterTempo } from '../music/time/meter.ts';
import { PLAIN_CLICK, type Span } from '../music/sound/sound-commands.ts';
import type { Milliseconds } from '../common/units.ts';
import type { Settings } from './files/settings.ts';

export interface TapTest {
  /** Null where the taps were too few or followed no beat. */
  readonly result: TapResult | null;
  /** False where nothing can be heard, so that there is nothing to tap to. */
  readonly heard: boolean;
}

/** Five bars at a tempo that is easily tapped. */
const CLICK: Span = {
  id: 'tap',
  role: 'free',
  tempo: quarterTempo(92),
  meter: COMMON_TIME,
  bars: 5,
  click: { ...PLAIN_CLICK, voice: 'stick' },
  gain: 1,
  model: [],
};

/** What keys arrive, until told to stop. `onTap` gets true for Ctrl-C. */
export type Keys = (onTap: (isBreak: boolean) => void) => () => void;

/** Keys of a terminal in raw mode; the terminal is given back when stopped. */
export const terminalKeys =
  (input: NodeJS.ReadStream): Keys =>
  (onTap) => {
    const onData = (data: Buffer): void => onTap(data.includes(3));
    input.setRawMode(true);
    input.resume().on('data', onData);
    return () => {
      input.off('data', onData).pause();
      input.setRawMode(false);
    };
  };

const nothing = (): void => {};

/** Plays, listens for taps, and resolves when the click has ended or the player breaks off (null). */
export async function runTapTest(settings: Settings, keys: Keys): Promise<TapTest | null> {
  const sound = createSound({ device: settings.device, latency: settings.latency });
  const taps: Milliseconds[] = [];
  const beats: Milliseconds[] = [];
  let broken = false;
  let finish = nothing;
  const finished = new Promise<void>((resolve) => {
    finish = resolve;
  });
  const stopKeys = keys((isBreak) => {
    if (!isBreak) return void taps.push(sharedClock());
    broken = true;
    finish();
  });
  sound.listen((report) => {
    if (report.tell === 'beat') beats.push(sharedClock() - report.lateBy);
    if (report.tell === 'end' || (report.tell === 'output' && report.state === 'silent')) finish();
  });
  sound.send({ ask: 'volume', ...settings.volume });
  sound.send({ ask: 'play', spans: [CLICK] });
  await finished;
  stopKeys();
  const heard = sound.output() !== null;
  await sound.close();
  return broken ? null : { result: offsetFromTaps(taps, beats), heard };
}
