/** One algebra of steps for the whole program: the next state, and what is to be done outside, as data. */
import type { Happening } from '../diary/entry.ts';
import type { SoundCommand } from '../music/sound/sound-commands.ts';
import type { ChangedSettings } from './settings.ts';
import type { Draft, OwnAsked } from './screens/own-asked.ts';

export type Effect =
  | { readonly type: 'sound'; readonly command: SoundCommand }
  /** To be put on the disk; 'kept' comes back when it is there, 'not-kept' when it is not. */
  | { readonly type: 'keep'; readonly happening: Happening }
  /** The answer to the last key, one sentence; null takes an answer away. It stays within the stand. */
  | { readonly type: 'say'; readonly sentence: string | null }
  /** To be done with the player's own files; 'own' comes back. */
  | { readonly type: 'own'; readonly asked: OwnAsked }
  /** What is being typed, kept until it is in a file; null when it is. */
  | { readonly type: 'draft'; readonly draft: Draft | null }
  /** Kept in the settings file. */
  | { readonly type: 'set'; readonly settings: ChangedSettings };

export interface Step<State> {
  readonly state: State;
  readonly effects: readonly Effect[];
}

export const step = <State>(state: State, ...effects: readonly Effect[]): Step<State> => ({ state, effects });

/** Effects of this step first, then those of what follows from its state. */
export function andThen<State>({ state, effects }: Step<State>, more: (state: State) => Step<State>): Step<State> {
  const next = more(state);
  return { state: next.state, effects: [...effects, ...next.effects] };
}

/** A step of a part as a step of the whole. */
export const within = <Part, Whole>({ state, effects }: Step<Part>, put: (part: Part) => Whole): Step<Whole> => ({
  state: put(state),
  effects,
});

export const sound = (command: SoundCommand): Effect => ({ type: 'sound', command });
export const keep = (happening: Happening): Effect => ({ type: 'keep', happening });
export const say = (sentence: string | null): Effect => ({ type: 'say', sentence });

/** Silence, drone included. */
export const SILENCE: readonly Effect[] = [sound({ ask: 'stop' }), sound({ ask: 'drone', drone: null })];
