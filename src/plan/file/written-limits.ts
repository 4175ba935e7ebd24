/** How long and how large the small values of an exercise may be, for the file's schema and for the form. */

/** Characters at most; `cues` is how many of them. */
export const LONGEST = { title: 80, material: 200, spot: 200, pattern: 8000, cue: 120, cues: 20 } as const;

type Bounds = readonly [low: number, high: number];

export const BOUNDS = {
  tempo: [10, 400],
  notes: [0.25, 16],
  bars: [1, 1000],
  breaths: [1, 500],
  minutes: [0.5, 240],
} as const satisfies Readonly<Record<string, Bounds>>;

/** `rangeWords([1, 8], 'a whole number')` is 'a whole number from 1 to 8'. */
export const rangeWords = ([low, high]: Bounds, what: string): string => `${what} from ${low} to ${high}`;

export const METER_RIGHT = 'a meter like 4/4 or 7/8 (2+2+3)';
export const NOTE_VALUE = /^((dotted )?(whole|half|quarter|eighth|sixteenth)|[1-9]\d?\/(1|2|4|8|16|32))$/;
export const NOTE_VALUE_RIGHT = 'a note value like quarter, dotted quarter or 3/8';
