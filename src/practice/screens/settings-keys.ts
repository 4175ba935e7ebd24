/** The settings changed on the screen: each change counts, sounds and is kept at once. */
import type { ChangedSettings, SettingsAt } from '../settings.ts';
import type { SettingsAction } from '../actions.ts';
import type { Stand, StandStep, View } from '../stand.ts';
import { type Effect, andThen, say, sound, step } from '../step.ts';
import { SETTING_ROWS, type SettingRow } from './settings-rows.ts';

export type SettingsView = Extract<View, { readonly screen: 'settings' }>;

const START: SettingsAt = { row: 0, typed: null, learns: false };

export const settingsAt = ({ at = START }: SettingsView): SettingsAt => at;

export const isTypingSetting = ({ view }: Pick<Stand, 'view'>): boolean =>
  view.screen === 'settings' && (settingsAt(view).typed !== null || settingsAt(view).learns);

const rowOf = (view: SettingsView): SettingRow => SETTING_ROWS[settingsAt(view).row] as SettingRow;

const withAt = (stand: Stand, view: SettingsView, finger: Partial<SettingsAt>): Stand => ({
  ...stand,
  view: { ...view, at: { ...settingsAt(view), ...finger } },
});

/** Concert A below, among and above the staff: where the drone's octave would put it for most players. */
const HEARD = { below: 45, at: 57, above: 69 } as const;

function heard({ settings: { a4, drone } }: Stand): Effect {
  const { timbre, octave } = drone;
  const tone = { tonic: HEARD[octave], voices: ['tonic'], tuning: 'equal', a4, timbre, gain: 1, detune: 0 } as const;
  return sound({ ask: 'drone', drone: tone });
}

const QUIET = sound({ ask: 'drone', drone: null });

/** What follows from it where the stand keeps it elsewhere too. */
function applied(stand: Stand, changed: ChangedSettings): Stand {
  const { level, tapOffset, minutes, routine } = changed;
  const at = stand.known.routines.findIndex(({ id }) => id === routine);
  return {
    ...stand,
    settings: { ...stand.settings, ...changed },
    known: level === undefined ? stand.known : { ...stand.known, level },
    dials: tapOffset === undefined ? stand.dials : { ...stand.dials, tapOffset },
    day: { ...stand.day, ...(minutes ? { minutes } : {}), ...(at < 0 ? {} : { routine: at, plan: null, since: null }) },
  };
}

function change(stand: Stand, view: SettingsView, changed: ChangedSettings): StandStep {
  const now = applied(stand, changed);
  return step(now, { type: 'set', settings: changed }, ...(rowOf(view).isHeard ? [heard(now)] : []));
}

function moved(stand: Stand, view: SettingsView, by: number): StandStep {
  const row = (settingsAt(view).row + by + SETTING_ROWS.length) % SETTING_ROWS.length;
  return step(withAt(stand, view, { row }), ...(rowOf(view).isHeard ? [QUIET] : []));
}

function turned(stand: Stand, view: SettingsView, by: 1 | -1): StandStep {
  const { turned: turn, label } = rowOf(view);
  return turn ? change(stand, view, turn(stand, by)) : step(stand, say(`${label}: Enter, then type or press it.`));
}

/** What can be typed is typed, a key is waited for, the rest goes on to its next. */
function opened(stand: Stand, view: SettingsView): StandStep {
  const { read, learns } = rowOf(view);
  if (learns) return step(withAt(stand, view, { learns: true }));
  return read ? step(withAt(stand, view, { typed: '' })) : turned(stand, view, 1);
}

export const SETTINGS_KEYS: Readonly<Record<SettingsAction, (stand: Stand, view: SettingsView) => StandStep>> = {
  up: (stand, view) => moved(stand, view, -1),
  down: (stand, view) => moved(stand, view, 1),
  'setting-less': (stand, view) => turned(stand, view, -1),
  'setting-more': (stand, view) => turned(stand, view, 1),
  open: opened,
};

/** Leaving the screen ends what it let sound. */
export const settingsLeft = ({ view }: Stand): readonly Effect[] =>
  view.screen === 'settings' && rowOf(view).isHeard ? [QUIET] : [];

function learn(stand: Stand, view: SettingsView, key: string): StandStep {
  const { learns = 'pedal-forward', label } = rowOf(view);
  const still = withAt(stand, view, { learns: false });
  if (key === 'escape') return step(still);
  const keys = { ...stand.settings.keys, [learns]: [key] };
  return andThen(change(still, view, { keys }), (state) => step(state, say(`${label} is ${key} from now on.`)));
}

function take(stand: Stand, view: SettingsView, typed: string): StandStep {
  const read = rowOf(view).read?.(typed.trim()) ?? {};
  if (typeof read === 'string') return step(stand, say(read));
  return change(withAt(stand, view, { typed: null }), view, read);
}

/** No value is longer. */
const MOST_TYPED = 200;

/** One key while a value is typed or a key is waited for. */
export function typeSetting(stand: Stand, view: SettingsView, key: string): StandStep {
  const { learns, typed } = settingsAt(view);
  if (learns) return learn(stand, view, key);
  const now = typed ?? '';
  if (key === 'enter') return take(stand, view, now);
  if (key === 'escape') return step(withAt(stand, view, { typed: null }));
  if (key === 'backspace') return step(withAt(stand, view, { typed: [...now].slice(0, -1).join('') }));
  const letter = key === 'space' ? ' ' : key;
  const fits = /^[\p{L}\p{M}\p{N}\p{P}\p{S} ]$/u.test(letter) && [...now].length < MOST_TYPED;
  return step(fits ? withAt(stand, view, { typed: now + letter }) : stand);
}
