/**
 * The sound as the rest of the program sees it. The child process sounds, this side counts the same
 * score by the same functions: when the child or its device is lost, the beat goes on without a gap.
 */
import type { SoundCommand, SoundOutput } from '../../music/sound/sound-commands.ts';
import type { Milliseconds } from '../../common/units.ts';
import { type SoundClock, createConductor } from './beat-counter.ts';
import { type Connect, type Link, forkedChild } from './child-link.ts';
import type { Attempt, BackEnd, DeviceSettings, FromChild, OutputInfo } from './protocol.ts';
import { createListeners, systemClock } from './silent-sound.ts';
import { soundSurroundings } from './sound-system-state.ts';

export interface SoundOptions {
  /** Name of the sound device; null or absent is the system's default. */
  readonly device?: string | null;
  /** 'low' (default) answers soonest, 'safe' holds more sound ready. */
  readonly latency?: DeviceSettings['latency'];
  /** The player's own correction from the tap test: how much later than assumed they hear. */
  readonly offset?: Milliseconds;
  /** Where the native libraries' lines go; null or absent is nowhere. */
  readonly logFile?: string | null;
  /** What may be tried, in this order. */
  readonly backEnds?: readonly BackEnd[];
  /** Whether the names of all devices are wanted. */
  readonly list?: boolean;
  readonly clock?: SoundClock;
  readonly connect?: Connect;
  /** A glance at the sound system; null where none can be had. */
  readonly surroundings?: () => string | null;
}

export interface Sound extends SoundOutput {
  setOffset(offset: Milliseconds): void;
  /** What sounds at present; null while silent. */
  output(): OutputInfo | null;
  /** Why nothing could be opened when it was last tried. */
  attempts(): readonly Attempt[];
  /** Names of the devices, where they were asked for. */
  devices(): readonly string[];
}

export const SENTENCES = {
  none: 'No sound device could be opened. The beat goes on without sound.',
  noneOfThatName: 'The sound device of the settings cannot be opened. The beat goes on without sound.',
  lost: 'The sound has stopped. The beat goes on without it until it is back.',
  sounding: 'Sound is on.',
  back: 'The sound is back.',
} as const;

/** Commands wait so long for the first device before the beat starts without it. */
const FIRST_WAIT: Milliseconds = 1500;
/** A child that has said nothing for so long has stalled. */
const STALLED: Milliseconds = 1200;
const RETRY: Milliseconds = 1000;
const HURRIED = 5;
/** How long to go without a try where nothing has changed. */
const PATIENCE: Milliseconds = 3000;
const WATCH: Milliseconds = 200;

/** 'waiting' for the first device, 'led' by a child that sounds, 'alone' with the clock. */
type Mode = 'waiting' | 'led' | 'alone';

/** Opens the sound at once and without blocking; it never throws, and is silent where nothing can sound. */
export function createSound(options: SoundOptions = {}): Sound {
  const clock = options.clock ?? systemClock;
  const connect = options.connect ?? forkedChild(options.logFile ?? null);
  const surroundings = options.surroundings ?? soundSurroundings;
  const { tell, listen } = createListeners();
  const conductor = createConductor(clock, tell);
  conductor.setOffset(options.offset ?? 0);

  let settings: DeviceSettings = {
    device: options.device ?? null,
    latency: options.latency ?? 'low',
    backEnds: options.backEnds ?? ['web-audio', 'speaker'],
    list: options.list ?? false,
  };
  let mode: Mode = 'waiting';
  let link: Link | null = null;
  let output: OutputInfo | null = null;
  let trying: BackEnd | null = null;
  let attempts: readonly Attempt[] = [];
  let devices: readonly string[] = [];
  /** What was around when no device could be opened. */
  let triedIn: string | null = null;
  let lastWord: Milliseconds = clock.now();
  let everSounded = false;
  /** So many more attempts are made without waiting for a change around us. */
  let hurried = 0;
  let told: string | null = null;
  let nextId = 0;
  /** Sent to the child and not yet applied, or waiting for the first device. */
  let pending: readonly { readonly id: number; readonly command: SoundCommand }[] = [];
  const timers = new Set<() => void>();

  function later(after: Milliseconds, call: () => void): void {
    const cancel = clock.wake(after, () => {
      timers.delete(cancel);
      call();
    });
    timers.add(cancel);
  }

  function say(state: 'sounding' | 'silent', sentence: string): void {
    if (told !== sentence) tell({ tell: 'output', state, sentence });
    told = sentence;
  }

  function goOnAlone(sentence: string): void {
    mode = 'alone';
    output = null;
    for (const { command } of pending) conductor.apply(command);
    pending = [];
    say('silent', sentence);
  }

  const silentSentence = (): string => {
    if (everSounded) return SENTENCES.lost;
    return settings.device === null ? SENTENCES.none : SENTENCES.noneOfThatName;
  };

  function begin(): void {
    lastWord = clock.now();
    attempts = [];
    link = connect(settings, hear, ended);
  }

  function ended(): void {
    const wasSounding = mode === 'led';
    link = null;
    // The package that ended its process will do so again.
    if (trying) attempts = [...attempts, { backEnd: trying, reason: 'its library ended the process' }];
    if (trying === 'speaker') settings = { ...settings, backEnds: settings.backEnds.filter((b) => b !== 'speaker') };
    trying = null;
    goOnAlone(silentSentence());
    triedIn = surroundings();
    // After a loss at once, a few times: the device may be back already.
    hurried = wasSounding ? HURRIED : Math.max(0, hurried - 1);
    later(RETRY, () => retry(hurried > 0 ? 0 : PATIENCE));
  }

  /** Another child costs a fifth of a second of work: where nothing has changed around us, try less often. */
  function retry(patience: Milliseconds): void {
    const seen = surroundings();
    if (seen === null || seen !== triedIn || patience <= 0) begin();
    else later(RETRY, () => retry(patience - RETRY));
  }

  function dropChild(): void {
    link?.kill();
    ended();
  }

  function opened(info: OutputInfo): void {
    trying = null;
    output = info;
    mode = 'led';
    link?.send({ to: 'take', score: conductor.score(), heard: conductor.heard(), at: clock.now() });
    for (const { id, command } of pending) link?.send({ to: 'do', id, command });
    say('sounding', everSounded ? SENTENCES.back : SENTENCES.sounding);
    everSounded = true;
  }

  function hear(message: FromChild): void {
    lastWord = clock.now();
    switch (message.from) {
      case 'trying':
        trying = message.backEnd;
        break;
      case 'opened':
        opened(message.output);
        break;
      case 'refused':
        trying = null;
        attempts = [...attempts, message.attempt];
        break;
      case 'devices':
        devices = message.names;
        break;
      case 'failed':
        dropChild();
        break;
      case 'done':
        done(message.id, message.now);
        break;
      case 'position':
        conductor.anchor(message.heard, message.at);
        break;
      case 'lost':
        dropChild();
        break;
    }
  }

  function done(id: number, now: Parameters<typeof conductor.apply>[1]): void {
    const command = pending.find((p) => p.id === id)?.command;
    pending = pending.filter((p) => p.id !== id);
    if (command) conductor.apply(command, now);
  }

  /** The watch itself may have been held up: only words that were missed while it was awake count. */
  function watch(last: Milliseconds): void {
    const now = clock.now();
    const heldUp = now - last > 2 * WATCH;
    if (mode === 'led' && !heldUp && now - lastWord > STALLED) dropChild();
    later(WATCH, () => watch(now));
  }

  begin();
  later(WATCH, () => watch(clock.now()));
  later(FIRST_WAIT, () => {
    if (mode === 'waiting') goOnAlone(silentSentence());
  });

  return {
    send(command) {
      if (mode === 'alone') return conductor.apply(command);
      const id = nextId++;
      pending = [...pending, { id, command }];
      if (mode === 'led') link?.send({ to: 'do', id, command });
    },
    listen,
    setOffset: (offset) => conductor.setOffset(offset),
    output: () => output,
    attempts: () => attempts,
    devices: () => devices,
    close() {
      for (const cancel of timers) cancel();
      timers.clear();
      link?.send({ to: 'close' });
      link?.kill();
      link = null;
      conductor.close();
      return Promise.resolve();
    },
  };
}
