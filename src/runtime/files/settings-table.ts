/**
 * Every setting once: its name in the file, what may be written and what that means, and what the README says of it.
 * A check is read in both directions, so that what a screen writes is what the next start reads.
 */
import { z } from 'zod';
import { INSTRUMENTS, instrumentNamed } from '../../music/pitch/instruments.ts';
import { DRONE_OCTAVES } from '../../music/pitch/drone-place.ts';
import { DRONE_TIMBRES } from '../../music/sound/sound-commands.ts';
import { readSyllables } from '../../music/tongue/syllables.ts';
import { nearest } from '../../common/nearest-word.ts';
import type { Gain } from '../../common/units.ts';
import { HIGHEST_LEVEL, LOWEST_LEVEL } from '../../plan/ease/hearing-dose.ts';
import { LEAST_MINUTES, MOST_MINUTES } from '../../plan/today/todays-plan.ts';
import { LADDER_RULE, between, ladderRule, oneOf, yesNo } from '../../plan/file/schema-values.ts';
import { readAim } from '../../plan/file/value-words.ts';
import { LIMITS } from '../../practice/settings.ts';
import { ownKeys } from './own-keys.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings-defaults.ts';

export interface Setting<Value> {
  /** As it stands in the file. */
  readonly name: string;
  /** From what is written to its value, and back; its messages say what would be right. */
  readonly check: z.ZodType<Value>;
  /** For the README. */
  readonly about: string;
}

/** To a ten-thousandth of a per cent, so that no level drifts from one start to the next. */
const shareOf = (perCent: number): Gain => Math.round(perCent * 1e4) / 1e6;

/** A number of at most 1 is a share, as older versions wrote it: 0.85 is 85 %, and 1 is all of it, not 1 %. */
const gainOf = (written: number | string): Gain =>
  typeof written === 'number' && written <= 1 ? written : shareOf(Number.parseFloat(`${written}`));

/** 0.29 is 29. What would be read as a share gets its sign: '1%'. */
function perCentOf(gain: Gain): number | string {
  const perCent = Math.round(gain * 1e6) / 1e4;
  return perCent === 0 || perCent > 1 ? perCent : `${perCent}%`;
}

const PER_CENT = 'a percentage from 0 to 100';

/** `85`, `85%` and `0.85` are 0.85. */
const level = z.codec(
  z.union([between(0, 100, 'a percentage'), z.string().regex(/^(\d{1,2}(\.\d{1,9})?|100) ?%$/, PER_CENT)], PER_CENT),
  z.number(),
  { decode: gainOf, encode: perCentOf },
);

/** A text that one of the program's own readers understands; `right` may look at what was written instead. */
const readBy = <Value>(
  read: (word: string) => Value | null,
  right: (word: unknown) => string,
  write: (value: Value) => string,
): z.ZodType<Value> =>
  z.codec(z.string({ error: ({ input }) => right(input) }), z.custom<Value>(), {
    decode: (word, { issues }) => {
      const value = read(word);
      if (value === null) issues.push({ code: 'custom', message: right(word), input: word });
      return value ?? z.NEVER;
    },
    encode: write,
  });

/** YAML 1.2 reads a bare `yes` as text. */
const yesOrNo = z.codec(yesNo, z.boolean(), {
  decode: (written) => written === true || written === 'yes',
  encode: (is) => (is ? 'yes' : 'no'),
});

const INSTRUMENT_NAMES = INSTRUMENTS.map(({ id }) => id);

function instrumentWanted(word: unknown): string {
  const meant = typeof word === 'string' ? nearest(word, INSTRUMENT_NAMES) : null;
  return meant ? `an instrument; did you mean ${meant}?` : `an instrument, such as ${INSTRUMENT_NAMES[0]}`;
}

const orNull = <Value>(read: Value | string): Value | null => (typeof read === 'string' ? null : read);

/** '04:00' is 240. YAML reads an unquoted 4:30 as text, too. */
function minutesOf(time: string): number | null {
  const [, hours, minutes] = /^(\d\d?):([0-5]\d)$/.exec(time) ?? [];
  const sum = Number(hours) * 60 + Number(minutes);
  return sum <= 720 ? sum : null;
}

const two = (n: number): string => String(n).padStart(2, '0');
const timeOf = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

export const SETTINGS: { readonly [Field in keyof Settings]: Setting<Settings[Field]> } = {
  instrument: {
    name: 'instrument',
    check: readBy(
      (word) => instrumentNamed(word)?.id ?? null,
      instrumentWanted,
      (id) => id,
    ),
    about: 'yours, such as cornet, Bb cornet or flute',
  },
  a4: {
    name: 'a4',
    check: between(...LIMITS.a4, 'hertz'),
    about: 'the A that the drone is tuned to, 380 to 500 hertz',
  },
  drone: {
    name: 'drone',
    check: z.strictObject(
      {
        timbre: oneOf(DRONE_TIMBRES).default(DEFAULT_SETTINGS.drone.timbre),
        octave: oneOf(DRONE_OCTAVES).default(DEFAULT_SETTINGS.drone.octave),
      },
      'timbre: and octave:',
    ),
    about:
      'how it sounds where no routine says otherwise: `timbre` reed, organ, string or pure, `octave` below what you ' +
      'play or with its lowest note, at (among the notes) or above them',
  },
  volume: {
    name: 'volume',
    check: z.strictObject(
      {
        click: level.default(DEFAULT_SETTINGS.volume.click),
        drone: level.default(DEFAULT_SETTINGS.volume.drone),
      },
      'click: and drone:, each a percentage',
    ),
    about:
      'levels in per cent (up to 1 it is a share: 0.85 is 85); the keys that turn them while you play write them here',
  },
  keys: {
    name: 'keys',
    check: ownKeys,
    about: 'your own keys, by what they do: `clean: [y, x]`; for a pedal: `pedal-forward: [right]`',
  },
  dayStart: {
    name: 'day starts',
    check: readBy(minutesOf, () => "a time from 0:00 to 12:00, as '04:00'", timeOf),
    about: 'when your day starts; what you play before counts to the evening before',
  },
  syllables: {
    name: 'syllables',
    check: readBy(
      (word) => orNull(readSyllables(word)),
      () => 't-k, d-g, or two syllables of your own, as ta-ka',
      ({ name }) => name,
    ),
    about: 'under the notes: t-k, d-g, or two of your own, such as ta-ka',
  },
  plainLetters: {
    name: 'plain letters',
    check: yesOrNo,
    about: '`yes` draws everything in ASCII, Bb for B♭; by itself where the locale is not UTF-8',
  },
  stillBeat: {
    name: 'beat',
    check: z.codec(oneOf(['moving', 'still']), z.boolean(), {
      decode: (word) => word === 'still',
      encode: (still) => (still ? 'still' : 'moving'),
    }),
    about: '`still` draws no beat: nothing moves on the screen but the state, once in each of its stretches',
  },
  level: {
    name: 'level at the ear',
    check: between(LOWEST_LEVEL, HIGHEST_LEVEL, 'decibels, dB(A)'),
    about: 'dB(A) as you measured them; Today then says what share of the recommended exposure its minutes take',
  },
  rule: {
    name: 'rule',
    check: readBy(
      (word) => (ladderRule.safeParse(word).success ? { aim: readAim(word) } : null),
      () => LADDER_RULE,
      ({ aim }) => (aim === null ? 'count' : `aim ${Math.round(aim * 1000) / 10} %`),
    ),
    about:
      'what moves the ladder of exercises that do not say it themselves: `count` (3 clean in a row up, 1 missed or 2 ' +
      'tense down), or `aim 80 %` (60 to 95), the highest rung at which your marks let expect that share of clean ones',
  },
  device: {
    name: 'device',
    check: z.string('a name').min(1).max(200),
    about: 'the sound device, by a name that `standside sound` lists',
  },
  latency: {
    name: 'latency',
    check: oneOf(['low', 'safe']),
    about: '`safe` holds more sound ready and answers later: for a machine with both hands full',
  },
  tapOffset: {
    name: 'sound delay',
    check: between(...LIMITS.tapOffset, 'milliseconds'),
    about: 'how late the click reaches you in milliseconds, as `standside lag` measures it',
  },
  routine: {
    name: 'routine',
    check: z.string('the name of a routine').min(1).max(200),
    about: 'the routine that Today begins with until one was played, by its file’s name, or `own list`',
  },
  minutes: {
    name: 'minutes',
    check: between(LEAST_MINUTES, MOST_MINUTES, 'minutes'),
    about: 'the minutes that Today begins with',
  },
};

/** What the file says for a setting: `writtenAs('volume', { click: 0.85, drone: 0 })` is `{ click: 85, drone: 0 }`. */
export const writtenAs = <Field extends keyof Settings>(field: Field, value: Settings[Field]): unknown =>
  z.encode(SETTINGS[field].check, value);
