/** What may stand in the settings file, and one sentence for whatever else stands there. */
import { INSTRUMENTS, instrumentNamed } from '../../music/pitch/instruments.ts';
import { type Syllables, readSyllables } from '../../music/tongue/syllables.ts';
import { shown } from '../../plan/file/place-in-file.ts';
import { harmless } from '../../common/harmless-text.ts';
import { HIGHEST_LEVEL, LOWEST_LEVEL } from '../../plan/ease/hearing-dose.ts';
import { nearest } from '../../common/nearest-word.ts';
import { KEYS, type KeyRow, type OwnKeys, type Place, rowsFor, withOwnKeys } from '../../ui/keys.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings.ts';

export interface Mistake {
  readonly path: readonly string[];
  /** The name is wrong, not its value. */
  readonly key?: boolean;
  readonly sentence: string;
}

type Checked<T> = { readonly value: T } | { readonly right: string };

const right = (sentence: string): { readonly right: string } => ({ right: sentence });

const number =
  (low: number, high: number, unit: string) =>
  (value: unknown): Checked<number> =>
    typeof value === 'number' && value >= low && value <= high ? { value } : right(`${unit} from ${low} to ${high}`);

const yesNo = (value: unknown): Checked<boolean> => (typeof value === 'boolean' ? { value } : right('true or false'));
const name = (value: unknown): Checked<string> =>
  typeof value === 'string' && value !== '' && value.length <= 200 ? { value } : right('a name');
const latency = (value: unknown): Checked<'low' | 'safe'> =>
  value === 'low' || value === 'safe' ? { value } : right('low or safe');

function instrument(value: unknown): Checked<string> {
  const found = typeof value === 'string' ? instrumentNamed(value) : null;
  if (found) return { value: found.id };
  const meant =
    typeof value === 'string'
      ? nearest(
          value,
          INSTRUMENTS.map(({ id }) => id),
        )
      : null;
  return right(meant ? `an instrument; did you mean ${meant}?` : `an instrument, such as ${INSTRUMENTS[0]?.id}`);
}

function syllables(value: unknown): Checked<Syllables> {
  const read = typeof value === 'string' ? readSyllables(value) : '';
  return typeof read === 'string' ? right('t-k, d-g, or two syllables of your own, as ta-ka') : { value: read };
}

/** '04:00' is 240. YAML reads an unquoted 4:30 as text, too. */
function timeOfDay(value: unknown): Checked<number> {
  const match = typeof value === 'string' ? /^(\d\d?):([0-5]\d)$/.exec(value) : null;
  const minutes = match ? Number(match[1]) * 60 + Number(match[2]) : NaN;
  return minutes <= 720 ? { value: minutes } : right("a time from 0:00 to 12:00, as '04:00'");
}

const percent = number(0, 100, 'a percentage');
const share = (value: unknown): Checked<number> => {
  const checked = percent(value);
  return 'value' in checked ? { value: checked.value / 100 } : checked;
};

type Patch = Partial<Settings>;
type Reader = (value: unknown, path: readonly string[], note: (mistake: Mistake) => void) => Patch;

/** A setting with one value. */
const single =
  <K extends keyof Settings>(field: K, check: (value: unknown) => Checked<Settings[K]>): Reader =>
  (value, path, note) => {
    const checked = check(value);
    if ('value' in checked) return { [field]: checked.value };
    note({ path, sentence: mistaken(path, value, checked.right) });
    return {};
  };

const mistaken = (path: readonly string[], value: unknown, wanted: string): string =>
  `'${harmless(path.at(-1) ?? '', 40)}' is ${shown(value)}; write ${wanted}${wanted.endsWith('?') ? '' : '.'}`;

const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function unknownName(path: readonly string[], known: readonly string[]): Mistake {
  const word = path.at(-1) ?? '';
  const meant = nearest(word, known);
  const hint = meant ? `did you mean '${meant}'?` : `known are ${known.join(', ')}.`;
  return { path, key: true, sentence: `there is no setting '${harmless(word, 40)}' here; ${hint}` };
}

const volume: Reader = (value, path, note) => {
  if (!isGroup(value)) {
    note({ path, sentence: mistaken(path, value, 'click: and drone:, each a percentage') });
    return {};
  }
  let levels = DEFAULT_SETTINGS.volume;
  for (const [of, level] of Object.entries(value)) {
    const at = [...path, of];
    const checked = share(level);
    if (of !== 'click' && of !== 'drone') note(unknownName(at, ['click', 'drone']));
    else if ('value' in checked) levels = { ...levels, [of]: checked.value };
    else note({ path: at, sentence: mistaken(at, level, checked.right) });
  }
  return { volume: levels };
};

const NAMED_KEYS: readonly string[] = [
  ...new Set([
    ...KEYS.flatMap(({ keys }) => keys).filter((key) => key.length > 1 && !key.startsWith('ctrl+')),
    'left',
    'right',
    'tab',
  ]),
];

const isKey = (key: unknown): key is string =>
  typeof key === 'string' &&
  (/^[\p{L}\p{N}\p{P}\p{S}]$/u.test(key) || /^ctrl\+[a-z]$/.test(key) || NAMED_KEYS.includes(key));

/** YAML reads a bare 1 as a number; as a key it is the digit. */
const keyList = (value: unknown): readonly unknown[] =>
  (Array.isArray(value) ? value : [value]).map((key) => (typeof key === 'number' ? String(key) : key));

const ACTIONS: readonly string[] = KEYS.map(({ action }) => action);

/** However the keys are bound, there is a way out. */
const withWayOut = (action: string, keys: readonly string[]): readonly string[] =>
  action === 'leave' && !keys.includes('ctrl+c') ? [...keys, 'ctrl+c'] : keys;

const PLACES: readonly Place[] = [...new Set(KEYS.flatMap(({ places }) => places))];

/** The first two actions that one key would stand for in one place. */
function clash(rows: readonly KeyRow[]): string | null {
  for (const place of PLACES) {
    const taken = new Map<string, string>();
    for (const { action, keys } of rowsFor(rows, place)) {
      for (const key of keys) {
        const other = taken.get(key);
        if (other)
          return `the key ${harmless(key)} is bound to both '${other}' and '${action}'; give one of them another key.`;
        taken.set(key, action);
      }
    }
  }
  return null;
}

const bindings: Reader = (value, path, note) => {
  if (!isGroup(value)) {
    note({ path, sentence: mistaken(path, value, 'an action and its keys on each line, as clean: [c, pagedown]') });
    return {};
  }
  const own: Record<string, readonly string[]> = {};
  for (const [action, written] of Object.entries(value)) {
    const at = [...path, action];
    const keys = keyList(written);
    if (!ACTIONS.includes(action)) note(unknownName(at, ACTIONS));
    else if (keys.length > 0 && keys.every(isKey)) own[action] = withWayOut(action, keys);
    else note({ path: at, sentence: mistaken(at, written, `keys such as c, space, pagedown or ctrl+d`) });
  }
  const clashing = clash(withOwnKeys(own as OwnKeys));
  if (clashing) note({ path, sentence: clashing });
  return clashing ? {} : { keys: own as OwnKeys };
};

const READERS: Readonly<Record<string, Reader>> = {
  keys: bindings,
  volume,
  'tap offset': single('tapOffset', number(-500, 500, 'milliseconds')),
  a4: single('a4', number(380, 500, 'hertz')),
  instrument: single('instrument', instrument),
  syllables: single('syllables', syllables),
  'plain letters': single('plainLetters', yesNo),
  'level at the ear': single('level', number(LOWEST_LEVEL, HIGHEST_LEVEL, 'decibels, dB(A)')),
  'day starts': single('dayStart', timeOfDay),
  device: single('device', name),
  latency: single('latency', latency),
};

/** The settings in a parsed file. */
export function checkSettings(value: unknown): { readonly settings: Settings; readonly mistakes: readonly Mistake[] } {
  const mistakes: Mistake[] = [];
  if (value === null) return { settings: DEFAULT_SETTINGS, mistakes };
  if (!isGroup(value)) {
    return {
      settings: DEFAULT_SETTINGS,
      mistakes: [{ path: [], sentence: 'the file holds no settings; write each as a name, a colon and a value.' }],
    };
  }
  let settings = DEFAULT_SETTINGS;
  for (const [field, written] of Object.entries(value)) {
    const reader = READERS[field];
    if (reader) settings = { ...settings, ...reader(written, [field], (mistake) => mistakes.push(mistake)) };
    else mistakes.push(unknownName([field], Object.keys(READERS)));
  }
  return { settings, mistakes };
}
