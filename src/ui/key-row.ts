/** What is known of a key: its action, its names, where it works and what is said of it. */
import type { Action, PictureScreen } from '../practice/stand.ts';

/** Where one types, every key is a letter, and the foot line says what is left; today's list has both. */
export type Place = PictureScreen | 'list';

export type Circumstance = 'sitting' | 'left open' | 'running' | 'breaths' | 'a key' | 'keys' | 'ways of tonguing';

export interface KeyRow {
  readonly action: Action;
  /** Names of keys, the first is the one shown. */
  readonly keys: readonly string[];
  /** How the foot line shows the key, where that is not its first name. */
  readonly sign?: string;
  /** For the foot line; empty keeps it out of there. */
  readonly short: string;
  /** What the foot line says while something runs. */
  readonly running?: string;
  readonly help: string;
  /** Only while a routine runs, while a sitting was left open, or where breaths are counted. */
  readonly only?: Circumstance;
  /** The foot line names it only then: elsewhere it says why it does nothing. */
  readonly namedWith?: Circumstance;
  readonly places: readonly Place[];
}

export const EVERYWHERE: readonly Place[] = [
  'today',
  'exercises',
  'practice',
  'grid',
  'block',
  'end',
  'ways',
  'weeks',
  'settings',
  'list',
];
export const LISTS: readonly Place[] = ['today', 'exercises', 'ways'];
/** Where a key is chosen with the arrows; while something sounds they are the levels. */
export const CHOSEN_FROM: readonly Place[] = ['exercises', 'grid'];
/** Where something sounds, and where its level is shown. */
export const SOUNDING: readonly Place[] = ['practice', 'block'];
/** Where blocks of a routine are played. */
export const SITTING: readonly Place[] = ['practice', 'block'];
