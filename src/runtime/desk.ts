/** The running program: holds the state, sends events through the one door and carries out what comes out. */
import type { Entry, Happening } from '../diary/entry.ts';
import { learnAllLines } from '../ladder/speed/speed-knowledge.ts';
import type { SoundOutput } from '../music/sound/sound-commands.ts';
import type { Seconds } from '../common/units.ts';
import type { OwnAsked } from '../practice/screens/own-asked.ts';
import { type Effect } from '../practice/step.ts';
import { onEvent } from '../practice/stand-events.ts';
import { type Action, type LineKnown, type Stand, type StandEvent } from '../practice/stand.ts';
import type { OwnFiles } from './own/own-files.ts';
import type { SettingsAtWork } from './settings-at-work.ts';

/** On disk: the entry as it was kept, and what is now known of the line it belongs to. */
export interface Kept {
  readonly entry: Entry;
  readonly line: LineKnown | null;
}

/** Puts what happened on the disk before it returns; a sentence says why not. */
export type Keep = (happening: Happening) => Kept | { readonly sentence: string };

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
  readonly settings: Pick<SettingsAtWork, 'set' | 'listen'>;
  /** The player's own files; nothing is written where there are none. */
  readonly own?: OwnFiles;
  /** Monotonic seconds. */
  readonly now: () => Seconds;
  /** The player's own day. */
  readonly today: () => string;
  /** Calls back about once a second until the returned function is called. */
  readonly everySecond: (call: () => void) => () => void;
}

const nothing = (): void => {};

/** The state and its listeners; events come one by one, each through the door. */
class Desk implements RunningDesk {
  private stand: Stand;
  private readonly parts: DeskParts;
  private readonly listeners = new Set<() => void>();
  private readonly endings: readonly (() => void)[];
  private leaves = nothing;
  private suspends = nothing;

  constructor(parts: DeskParts) {
    this.parts = parts;
    this.stand = parts.stand;
    this.endings = [
      parts.sound.listen((report) => this.send({ type: 'sound', report })),
      parts.everySecond(() => this.tick()),
      parts.settings.listen((event) => this.send(event)),
      parts.own?.watch((read) => this.send({ type: 'read', read })) ?? nothing,
    ];
  }

  readonly state = (): Stand => this.stand;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  };

  act(action: Action, key = ''): void {
    if (action === 'suspend') this.suspends();
    else this.send({ type: 'do', action, key, now: this.parts.now() });
  }

  learn(): void {
    const { knowledge, lines } = this.stand.known;
    if (!knowledge) this.send({ type: 'learnt', knowledge: learnAllLines(Object.values(lines)) });
  }

  onLeave(listener: () => void): void {
    this.leaves = listener;
  }

  onSuspend(listener: () => void): void {
    this.suspends = listener;
  }

  rest(): void {
    this.send({ type: 'rest', now: this.parts.now() });
  }

  close(): void {
    this.endings.forEach((end) => end());
  }

  private tick(): void {
    const today = this.parts.today();
    const isNew = !this.stand.sitting && today !== this.stand.known.today;
    this.send(isNew ? { type: 'day', today } : { type: 'tick', now: this.parts.now() });
  }

  private send(event: StandEvent): void {
    const before = this.stand;
    const { state, effects } = onEvent(before, event);
    this.stand = state;
    effects.forEach((effect) => this.perform(effect));
    if (this.stand !== before) this.listeners.forEach((listener) => listener());
    if (this.stand.leaving && !before.leaving) this.leaves();
  }

  private perform(effect: Effect): void {
    if (effect.type === 'sound') this.parts.sound.send(effect.command);
    if (effect.type === 'set') this.parts.settings.set(effect.settings);
    if (effect.type === 'keep') this.keep(effect.happening);
    if (effect.type === 'draft') this.parts.own?.draft(effect.draft);
    if (effect.type === 'own') void this.askOwn(effect.asked);
  }

  /** The files as they are now come first, so that what was written is among them. */
  private async askOwn(asked: OwnAsked): Promise<void> {
    const done = await this.parts.own?.carryOut(asked);
    if (done?.read) this.send({ type: 'read', read: done.read });
    if (done) this.send({ type: 'own', answer: done.answer });
  }

  private keep(happening: Happening): void {
    const kept = this.parts.keep(happening);
    this.send('sentence' in kept ? { type: 'not-kept', sentence: kept.sentence } : { type: 'kept', ...kept });
  }
}

export const createDesk = (parts: DeskParts): RunningDesk => new Desk(parts);
