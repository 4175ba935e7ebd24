/** The player's settings and what each is when nothing is written. Light: every start needs them. */
import { DAY_START } from '../common/days.ts';
import type { Gain, Hertz, Milliseconds } from '../common/units.ts';
import { type DroneLiked, USUAL_DRONE } from '../music/pitch/drone-place.ts';
import { HARD, type Syllables } from '../music/tongue/syllables.ts';
import type { Minutes } from '../plan/routine/routine.ts';

/** The player's own keys, by action; an action that is not named keeps its own. */
export type OwnKeys = Readonly<Partial<Record<string, readonly string[]>>>;

/** What `routine` says where the player begins with a list of their own. */
export const OWN_LIST = 'own list';

export interface Settings {
  /** The player's own keys, by action. */
  readonly keys: OwnKeys;
  readonly volume: { readonly click: Gain; readonly drone: Gain };
  /** How long after the click the player's taps arrive, measured or set; positive is late. */
  readonly tapOffset: Milliseconds;
  readonly a4: Hertz;
  /** The drone where no file says otherwise. */
  readonly drone: DroneLiked;
  /** Short name of an instrument, see `music/pitch/instruments`; null leaves it to the routine. */
  readonly instrument: string | null;
  /** The tongue's syllables: t-k, d-g, or the player's own pair. */
  readonly syllables: Syllables;
  /** Accidentals as letters a terminal surely has: 'Bb' instead of 'B♭'. */
  readonly plainLetters: boolean;
  /** No picture of the beat, for those whom movement disturbs. */
  readonly stillBeat: boolean;
  /** Sound level at the player's ear in dB(A), as they measured it; null when they did not. */
  readonly level: number | null;
  /** Minutes after midnight at which the player's day starts. */
  readonly dayStart: number;
  /** What moves the ladder of every exercise that does not say so itself: a share to aim at, or null for counting. */
  readonly rule: { readonly aim: number | null };
  /** Sound device by name; null is the system's default. */
  readonly device: string | null;
  /** 'safe' holds more sound ready, for a machine with both hands full. */
  readonly latency: 'low' | 'safe';
  /** Id of the routine that Today begins with where none was played yet, or OWN_LIST; null for the first there is. */
  readonly routine: string | null;
  /** Minutes that Today begins with; null where the player was never asked. */
  readonly minutes: Minutes | null;
}

/** What a screen changed. */
export type ChangedSettings = Partial<Settings>;

export const DEFAULT_SETTINGS: Settings = {
  keys: {},
  volume: { click: 0.8, drone: 0.4 },
  tapOffset: 0,
  a4: 440,
  drone: USUAL_DRONE,
  instrument: null,
  syllables: HARD,
  plainLetters: false,
  stillBeat: false,
  level: null,
  dayStart: DAY_START,
  rule: { aim: null },
  device: null,
  latency: 'low',
  routine: null,
  minutes: null,
};

/** What may be set, lowest and highest: hertz, milliseconds, dB(A) at the ear, per cent of clean ones to aim at. */
export const LIMITS = { a4: [380, 500], tapOffset: [-500, 500], aim: [60, 95] } as const;

/** Where the finger is among the settings. */
export interface SettingsAt {
  readonly row: number;
  /** What is being typed; null where nothing is. */
  readonly typed: string | null;
  /** A key is waited for. */
  readonly learns: boolean;
}
