/** The running program: holds the state, sends events through the one door and carries out what comes out. */
import type { Unstamped, DayEntry, UndoEntry } from '../diary/entry.ts';
import { type PlayedLine, learnAllLines } from '../ladder/speed/speed-knowledge.ts';
import type { SoundOutput } from '../music/sound/sound-commands.ts';
import type { Gain, Seconds } from '../common/units.ts';

import { type Draft, type Effect, isRunning } from '../practice/line/line-on-stand.ts';
import { onEvent } from '../practice/stand-events.ts';
import type { Action, Stand, StandEvent } from '../practice/stand.ts';

/** Puts a record of the day on disk before it returns: the record with its moment, or a sentence that says why not. */
export type KeepRecord = (
  record: Unstamped<DayEntry | UndoEntry>,
) => { readonly record: DayEntry | UndoEntry } | { readonly sentence: string };

/**
 * Puts a draft on disk before it returns: the entry's id and what is then known of its line, or a sentence that says
 * why not.
 */
export type Keep = (draft: Draft) => Kept | { readonly sentence: string };

export interface Kept {
  readonly id: string;
  readonly line: { readonly id: string; readonly history: PlayedLine | null } | null;
}

export interface RunningDesk {
  state(): Stand;
  subscribe(listener: () => void): () => void;
  act(action: Action, key?: string): void;
  /** All that the marks say about speed is worked out now, before a line is asked for. */
  learn(): void;
  /** Called once when the player leaves. */
  onLeave(listener: () => void): void;
  /** Called when the player puts the program to sleep (Ctrl-Z). */
  onSuspend(listener: () => void): void;
  /** Pauses what sounds. */
  rest(): void;
  close(): void;
}

export interface DeskParts {
  readonly stand: Stand;
  readonly sound: SoundOutput;
  readonly keep: Keep;
  readonly record: KeepRecord;
  readonly keepVolume: (volume: { readonly click: Gain; readonly drone: Gain }) => void;
  /** Monotonic seconds. */
  readonly now: () => Seconds;
  /** The player's own day. */
  readonly today: () => string;
  /** Calls back about once a second until the returned function is called. */
  readonly everySecond: (call: () => void) => () => void;
}

const nothing = (): void => {};

export function createDesk({
  stand,
  sound,
  keep,
  record,
  keepVolume,
  now,
  today,
  everySecond,
}: DeskParts): RunningDesk {
  let state = stand;
  const listeners = new Set<() => void>();
  let leave = nothing;
  let suspend = nothing;

  function perform(effect: Effect): void {
    if (effect.type === 'sound') return sound.send(effect.command);
    if (effect.type === 'record') return write(effect.record);
    if (effect.type === 'set') return keepVolume(effect.volume);
    const kept = keep(effect.draft);
    if ('sentence' in kept) return send({ type: 'not-stored', sentence: kept.sentence });
    if (kept.line) send({ type: 'line', ...kept.line });
    send({ type: 'stored', id: kept.id });
  }

  function write(unstamped: Unstamped<DayEntry | UndoEntry>): void {
    const kept = record(unstamped);
    send(
      'sentence' in kept ? { type: 'not-stored', sentence: kept.sentence } : { type: 'recorded', record: kept.record },
    );
  }

  function send(event: StandEvent): void {
    const before = state;
    const step = onEvent(state, event);
    state = step.state;
    step.effects.forEach(perform);
    if (state !== before) listeners.forEach((listener) => listener());
    if (state.leaving && !before.leaving) leave();
  }

  const unlisten = sound.listen((report) => send({ type: 'sound', report }));
  const stopTicking = everySecond(() => {
    if (state.run) send({ type: 'tick', now: now() });
    else if (today() !== state.today) send({ type: 'day', today: today() });
  });
  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    act: (action, key = '') => (action === 'suspend' ? suspend() : send({ type: 'do', action, key, now: now() })),
    learn: () => {
      if (!state.knowledge) send({ type: 'learnt', knowledge: learnAllLines(Object.values(state.lines)) });
    },
    onSuspend: (listener) => {
      suspend = listener;
    },
    rest: () => {
      if (state.practice && isRunning(state.practice)) send({ type: 'do', action: 'start-pause', key: '', now: now() });
    },
    onLeave: (listener) => {
      leave = listener;
    },
    close: () => {
      unlisten();
      stopTicking();
    },
  };
}
