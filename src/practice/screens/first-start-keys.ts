/** The first start: what the player plays, what to begin with, how many minutes. Asked once; one key passes it over. */
import { INSTRUMENTS, type Instrument } from '../../music/pitch/instruments.ts';
import { type Routine, isForInstrument } from '../../plan/routine/routine.ts';
import { LEAST_MINUTES, MOST_MINUTES } from '../../plan/today/todays-plan.ts';
import { type ChangedSettings, OWN_LIST } from '../settings.ts';
import { type Stand, type StandStep, USUAL_MINUTES, type View } from '../stand.ts';
import { step } from '../step.ts';
import { openList } from './day-list-keys.ts';
import { planned } from './today-keys.ts';

export type FirstView = Extract<View, { readonly screen: 'first' }>;

export const FIRST_VIEW: FirstView = {
  screen: 'first',
  asks: 'instrument',
  typed: '',
  instrument: 0,
  routine: 0,
  minutes: USUAL_MINUTES,
};

/** Whether the letters are the beginnings of words one after the other: 'barsax' and 'bs' are 'baritone saxophone'. */
function spells(words: readonly string[], letters: string): boolean {
  if (letters === '') return true;
  return words.some((word, i) =>
    Array.from({ length: Math.min(word.length, letters.length) }, (_, k) => k + 1)
      .filter((n) => word.startsWith(letters.slice(0, n)))
      .some((n) => spells(words.slice(i + 1), letters.slice(n))),
  );
}

const wordsOf = (text: string): readonly string[] => text.toLowerCase().split(/[^a-z0-9]+/);

/** Where what is typed is found: the short name itself, its beginning, the beginnings of words; null for nowhere. */
function rankOf({ id, name }: Instrument, typed: string): number | null {
  if (id === typed) return 0;
  if (id.startsWith(typed)) return 1;
  const letters = typed.replace(/[^a-z0-9]/g, '');
  if (spells(wordsOf(id), letters)) return 2;
  return spells(wordsOf(name), letters) ? 3 : null;
}

/** In the table's order, by families; where something is typed the shortest name that fits it first. */
export function instrumentsFound(typed: string): readonly Instrument[] {
  const wanted = typed.trim().toLowerCase();
  if (wanted === '') return INSTRUMENTS;
  const ranked = INSTRUMENTS.flatMap((instrument) => {
    const rank = rankOf(instrument, wanted);
    return rank === null ? [] : [{ instrument, rank }];
  });
  return ranked
    .toSorted((a, b) => a.rank - b.rank || a.instrument.id.length - b.instrument.id.length)
    .map(({ instrument }) => instrument);
}

export const instrumentNow = ({ typed, instrument }: FirstView): Instrument | null =>
  instrumentsFound(typed)[instrument] ?? null;

const levelRank = ({ level }: Routine): number => ['first years', 'some years', 'advanced'].indexOf(level ?? '');

/** What may be begun with on this instrument, the player's own first, then by level; then a list of one's own. */
export function routinesToBegin({ known }: Pick<Stand, 'known'>, instrument: string): readonly Routine[] {
  const isOwn = ({ id }: Routine): boolean => known.own.includes(id);
  return known.routines
    .filter((one) => isOwn(one) || isForInstrument(one, instrument))
    .toSorted((a, b) => Number(isOwn(b)) - Number(isOwn(a)) || levelRank(a) - levelRank(b));
}

const routinesNow = (stand: Stand, view: FirstView): readonly Routine[] =>
  routinesToBegin(stand, instrumentNow(view)?.id ?? '');

const withView = (stand: Stand, view: FirstView, change: Partial<FirstView>): Stand => ({
  ...stand,
  view: { ...view, ...change },
});

const wrap = (index: number, length: number): number => (length === 0 ? 0 : (index + length) % length);

const clamp = (minutes: number): number => Math.min(MOST_MINUTES, Math.max(LEAST_MINUTES, minutes));

function choose(stand: Stand, view: FirstView, by: number): StandStep {
  if (view.asks === 'instrument') {
    const instrument = wrap(view.instrument + by, instrumentsFound(view.typed).length);
    return step(withView(stand, view, { instrument, routine: 0 }));
  }
  if (view.asks === 'routine')
    return step(withView(stand, view, { routine: wrap(view.routine + by, routinesNow(stand, view).length + 1) }));
  return step(withView(stand, view, { minutes: clamp(view.minutes - 5 * by) }));
}

/** The first of the next family, or of the one before. */
function chooseFamily(stand: Stand, view: FirstView, by: number): StandStep {
  if (view.asks !== 'instrument') return choose(stand, view, -by);
  const found = instrumentsFound(view.typed);
  const starts = found.flatMap(({ family }, i) => (i === 0 || found[i - 1]?.family !== family ? [i] : []));
  const here = starts.findLastIndex((start) => start <= view.instrument);
  const instrument = starts[wrap(here + by, starts.length)] ?? 0;
  return step(withView(stand, view, { instrument, routine: 0 }));
}

/** The settings and the day as they are from now on. */
function begun(stand: Stand, changed: ChangedSettings): StandStep {
  const settings = { ...stand.settings, ...changed };
  const at = stand.known.routines.findIndex(({ id }) => id === changed.routine);
  const day = { ...stand.day, minutes: settings.minutes ?? USUAL_MINUTES, ...(at < 0 ? {} : { routine: at }) };
  const today = planned({ ...stand, settings, day, view: { screen: 'today' } });
  return step(changed.routine === OWN_LIST ? openList(today) : today, { type: 'set', settings: changed });
}

function next(stand: Stand, view: FirstView): StandStep {
  const instrument = instrumentNow(view);
  if (!instrument) return step(stand);
  if (view.asks === 'instrument')
    return step(withView(stand, view, { asks: 'routine', typed: instrument.id, instrument: 0 }));
  if (view.asks === 'routine') return step(withView(stand, view, { asks: 'minutes', typed: view.typed }));
  const routine = routinesNow(stand, view)[view.routine]?.id ?? OWN_LIST;
  return begun(stand, { instrument: instrument.id, routine, minutes: view.minutes });
}

/** Nothing is chosen, and nothing is asked again. */
const pass = (stand: Stand): StandStep => begun(stand, { minutes: USUAL_MINUTES });

const before = (stand: Stand, view: FirstView): StandStep =>
  view.asks === 'instrument'
    ? step(withView(stand, view, { typed: view.typed.slice(0, -1), instrument: 0, routine: 0 }))
    : step(withView(stand, view, view.asks === 'minutes' ? { asks: 'routine' } : { asks: 'instrument', typed: '' }));

const KEYS: Readonly<Record<string, (stand: Stand, view: FirstView) => StandStep>> = {
  up: (stand, view) => choose(stand, view, -1),
  down: (stand, view) => choose(stand, view, 1),
  pageup: (stand, view) => choose(stand, view, 1),
  left: (stand, view) => chooseFamily(stand, view, -1),
  right: (stand, view) => chooseFamily(stand, view, 1),
  enter: next,
  pagedown: next,
  backspace: before,
  escape: pass,
};

/** No name of an instrument is longer. */
const MOST_TYPED = 30;

function typeLetter(stand: Stand, view: FirstView, key: string): StandStep {
  const letter = key === 'space' ? ' ' : key;
  const fits = view.asks === 'instrument' && /^[\p{L}\p{N} -]$/u.test(letter) && view.typed.length < MOST_TYPED;
  if (fits) return step(withView(stand, view, { typed: view.typed + letter, instrument: 0, routine: 0 }));
  if (view.asks !== 'minutes' || !/^[+=-]$/.test(key)) return step(stand);
  return choose(stand, view, key === '-' ? 1 : -1);
}

/** One key while the questions show. */
export function typeInFirst(stand: Stand, view: FirstView, key: string): StandStep {
  return KEYS[key]?.(stand, view) ?? typeLetter(stand, view, key);
}
