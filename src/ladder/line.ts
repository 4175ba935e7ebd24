/** What has a ladder, a history and a best: one exercise in one articulation and one key. */

/**
 * A way of tonguing by its name, e.g. 'slurred', 'single', 'double', 'triple', or a mixed pattern
 * such as 'slur 2 tongue 2'. What each sounds like is `music/tongue/articulation`'s to say.
 */
export type ArticulationName = string;
/** Written key, e.g. 'C', 'Bb', 'F#', or with its mode: 'A minor'. Major is not named. */
export type KeyName = string;

/** Stands for the key of a line that all keys of an exercise share. */
export const ALL_KEYS: KeyName = 'all keys';

export interface Line {
  readonly exercise: string;
  readonly articulation: ArticulationName;
  readonly key: KeyName;
}

/** `lineName({ exercise: 'five-notes', articulation: 'single', key: 'Bb' })` is 'five-notes · single · Bb'. */
export const lineName = ({ exercise, articulation, key }: Line): string => `${exercise} · ${articulation} · ${key}`;
