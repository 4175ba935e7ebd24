/** The settings one by one: what each says, what is more and less of it, what may be typed. */
import { INSTRUMENTS, instrumentNamed } from '../../music/pitch/instruments.ts';
import { DRONE_OCTAVES } from '../../music/pitch/drone-place.ts';
import { DRONE_TIMBRES } from '../../music/sound/sound-commands.ts';
import { HARD, SOFT, readSyllables } from '../../music/tongue/syllables.ts';
import { HIGHEST_LEVEL, LOWEST_LEVEL } from '../../plan/ease/hearing-dose.ts';
import { LEAST_MINUTES, MOST_MINUTES } from '../../plan/today/todays-plan.ts';
import type { Action } from '../actions.ts';
import { type ChangedSettings, LIMITS, OWN_LIST } from '../settings.ts';
import { type Stand, USUAL_MINUTES } from '../stand.ts';
import { instrumentsFound, routinesToBegin } from './first-start-keys.ts';

export interface SettingRow {
  readonly label: string;
  readonly words: (stand: Stand) => string;
  /** One more or one less; nothing where it can only be typed. */
  readonly turned?: (stand: Stand, by: 1 | -1) => ChangedSettings;
  /** What was typed, or a sentence on what would be right. */
  readonly read?: (text: string) => ChangedSettings | string;
  /** The action whose key is learnt by pressing it. */
  readonly learns?: Action;
  /** It is heard in a drone while the finger is on it. */
  readonly isHeard?: boolean;
}

const after = <T>(all: readonly T[], now: T, by: number): T =>
  all[(all.indexOf(now) + by + all.length) % all.length] ?? now;

const clamp = (n: number, [low, high]: readonly [number, number]): number => Math.min(high, Math.max(low, n));

type NumberField = 'a4' | 'tapOffset' | 'level' | 'minutes';

/** A number within its limits; `usual` where none is set yet, and nothing typed sets none where that may be. */
function numberRow(
  field: NumberField,
  label: string,
  unit: string,
  limits: readonly [number, number],
  by: number,
  usual?: number,
): Pick<SettingRow, 'label' | 'words' | 'turned' | 'read'> {
  const right = `write a number from ${limits[0]} to ${limits[1]}${unit === '' ? '' : ` ${unit}`}.`;
  const read = (text: string): ChangedSettings | string => {
    if (text === '' && usual !== undefined) return { [field]: null };
    const number = Number(text.replace(',', '.'));
    const fits = /^[+-]?\d+([.,]\d+)?$/.test(text) && number >= limits[0] && number <= limits[1];
    return fits ? { [field]: number } : `'${text}' does not fit; ${right}`;
  };
  return {
    label,
    words: ({ settings }) => (settings[field] === null ? 'not set' : `${settings[field]} ${unit}`.trim()),
    turned: ({ settings }, way) => ({ [field]: clamp((settings[field] ?? usual ?? 0) + by * way, limits) }),
    read,
  };
}

const AIMS: readonly (number | null)[] = [null, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95];

function readRule(text: string): ChangedSettings | string {
  if (/^count$/i.test(text)) return { rule: { aim: null } };
  const [, digits] = /^(?:aim )?(\d\d?(?:\.\d)?) ?%?$/.exec(text) ?? [];
  const [low, high] = LIMITS.aim;
  const aim = Number(digits);
  if (aim >= low && aim <= high) return { rule: { aim: Math.round(aim * 10) / 1000 } };
  return `'${text}' does not fit; write count, or a share from ${low} to ${high} %.`;
}

function readTime(text: string): ChangedSettings | string {
  const [, hours, minutes] = /^(\d\d?):([0-5]\d)$/.exec(text) ?? [];
  const sum = Number(hours) * 60 + Number(minutes);
  return sum <= 720 ? { dayStart: sum } : `'${text}' does not fit; write a time from 0:00 to 12:00, as 4:00.`;
}

function readTongue(text: string): ChangedSettings | string {
  const syllables = readSyllables(text);
  return typeof syllables === 'string'
    ? `'${text}' does not fit; write t-k, d-g, or two of your own, as ta-ka.`
    : { syllables };
}

function readInstrument(text: string): ChangedSettings | string {
  const found = instrumentNamed(text) ?? (text === '' ? undefined : instrumentsFound(text)[0]);
  return found ? { instrument: found.id } : `No instrument is called '${text}'; left and right go through all of them.`;
}

function beginsWith({ settings, known }: Stand): string {
  if (settings.routine === OWN_LIST) return 'my own list';
  return known.routines.find(({ id }) => id === settings.routine)?.title ?? 'the one played last';
}

const routineNames = (stand: Stand): readonly (string | null)[] => [
  ...routinesToBegin(stand, stand.settings.instrument ?? stand.known.routines[0]?.instrument ?? '').map(({ id }) => id),
  OWN_LIST,
];

const two = (n: number): string => String(n).padStart(2, '0');
const yes = (is: boolean): string => (is ? 'yes' : 'no');

const flipped =
  (field: 'plainLetters' | 'stillBeat') =>
  ({ settings }: Stand): ChangedSettings => ({ [field]: !settings[field] });

/** A key that is learnt by pressing it. */
const keyRow = (label: string, learns: Action, usual: string): SettingRow => ({
  label,
  words: ({ settings: { keys } }) => (keys[learns] ?? [usual]).join(', '),
  learns,
});

export const SETTING_ROWS: readonly SettingRow[] = [
  {
    label: 'Instrument',
    words: ({ settings }) => (settings.instrument && instrumentNamed(settings.instrument)?.name) || 'the routine’s',
    turned: ({ settings }, by) => ({
      instrument: after(
        INSTRUMENTS.map(({ id }) => id),
        settings.instrument ?? '',
        by,
      ),
    }),
    read: readInstrument,
  },
  {
    label: 'Begin with',
    words: beginsWith,
    turned: (stand, by) => ({ routine: after(routineNames(stand), stand.settings.routine, by) }),
  },
  numberRow('minutes', 'Minutes', '', [LEAST_MINUTES, MOST_MINUTES], 5, USUAL_MINUTES),
  { ...numberRow('a4', 'A', 'Hz', LIMITS.a4, 1), isHeard: true },
  {
    label: 'Drone’s sound',
    words: ({ settings }) => settings.drone.timbre,
    turned: ({ settings: { drone } }, by) => ({ drone: { ...drone, timbre: after(DRONE_TIMBRES, drone.timbre, by) } }),
    isHeard: true,
  },
  {
    label: 'Drone’s octave',
    words: ({ settings }) => `${settings.drone.octave} what you play`.replace('at what', 'among what'),
    turned: ({ settings: { drone } }, by) => ({ drone: { ...drone, octave: after(DRONE_OCTAVES, drone.octave, by) } }),
    isHeard: true,
  },
  {
    label: 'Ladder’s rule',
    words: ({ settings: { rule } }) =>
      rule.aim === null ? 'count: 3 clean up, 1 missed down' : `aim ${Math.round(rule.aim * 1000) / 10} % clean`,
    turned: ({ settings }, by) => ({ rule: { aim: after(AIMS, settings.rule.aim, by) } }),
    read: readRule,
  },
  {
    label: 'Syllables',
    words: ({ settings }) => settings.syllables.name,
    turned: ({ settings }) => ({ syllables: settings.syllables.name === HARD.name ? SOFT : HARD }),
    read: readTongue,
  },
  {
    label: 'Sound device',
    words: ({ settings }) => settings.device ?? 'the system’s',
    read: (text) => ({ device: text === '' ? null : text }),
  },
  {
    label: 'Latency',
    words: ({ settings }) => settings.latency,
    turned: ({ settings }) => ({ latency: settings.latency === 'low' ? 'safe' : 'low' }),
  },
  numberRow('tapOffset', 'Sound delay', 'ms', LIMITS.tapOffset, 5),
  numberRow('level', 'Level at ear', 'dB(A)', [LOWEST_LEVEL, HIGHEST_LEVEL], 1, 85),
  {
    label: 'Day starts',
    words: ({ settings: { dayStart } }) => `${two(Math.floor(dayStart / 60))}:${two(dayStart % 60)}`,
    turned: ({ settings }, by) => ({ dayStart: clamp(settings.dayStart + 30 * by, [0, 720]) }),
    read: readTime,
  },
  { label: 'Plain letters', words: ({ settings }) => yes(settings.plainLetters), turned: flipped('plainLetters') },
  { label: 'Still beat', words: ({ settings }) => yes(settings.stillBeat), turned: flipped('stillBeat') },
  keyRow('Pedal forward', 'pedal-forward', 'pagedown'),
  keyRow('Pedal back', 'pedal-back', 'pageup'),
  keyRow('Key: clean', 'clean', 'c'),
  keyRow('Key: tense', 'tense', 't'),
  keyRow('Key: missed', 'missed', 'm'),
  keyRow('Key: start', 'start-pause', 'space'),
];
