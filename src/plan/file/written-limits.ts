/**
 * How long and how large the small values of an exercise may be, for the file's schema and for the form; and how much
 * a whole file may hold, so that one file costs no start more than a moment.
 */
/** As in `place-in-file`. */
type Path = readonly PropertyKey[];

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

/** So much a file may hold: far more than a year of practice needs. */
export const MOST = { entries: 1000, values: 20_000, blocks: 300, exercises: 1000, files: 100, named: 50 } as const;

const entriesOf = (value: object): readonly (readonly [PropertyKey, unknown])[] =>
  Array.isArray(value) ? value.map((item, i) => [i, item] as const) : Object.entries(value);

const inside = (path: Path): string => (path.length === 0 ? 'the file' : `'${String(path.at(-1)).slice(0, 40)}'`);

/** Where a plain value holds more than a file may, and what to do; null where it does not. */
export function tooMuchIn(value: unknown): { readonly path: Path; readonly sentence: string } | null {
  let values = 0;
  const waiting: (readonly [path: Path, value: unknown])[] = [[[], value]];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [path, at] = next;
    values += 1;
    if (values > MOST.values)
      return { path: [], sentence: `the file holds more than ${MOST.values} values; spread it over several files.` };
    if (typeof at !== 'object' || at === null) continue;
    const entries = entriesOf(at);
    if (entries.length > MOST.entries)
      return {
        path,
        sentence: `${inside(path)} holds ${entries.length} entries; at most ${MOST.entries} may stand there.`,
      };
    for (const [name, inner] of entries) waiting.push([[...path, name], inner]);
  }
  return null;
}
