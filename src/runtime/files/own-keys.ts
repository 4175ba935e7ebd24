/** The player's own keys, as the settings file has them: an action, and the keys that are to stand for it. */
import { z } from 'zod';
import { harmless } from '../../common/harmless-text.ts';
import {
  KEYS,
  type KeyRow,
  LAST_WAY_OUT,
  type OwnKeys,
  type Place,
  isPedal,
  rowsFor,
  withOwnKeys,
} from '../../ui/keys.ts';

/** The names of keys, such as pagedown: those that the program has a use for. Others are the sign that they type. */
const NAMED: readonly string[] = KEYS.flatMap(({ keys }) => keys);

const isKey = (key: string): boolean =>
  /^[\p{L}\p{N}\p{P}\p{S}]$/u.test(key) || /^ctrl\+[a-z]$/.test(key) || NAMED.includes(key);

const KEYS_WANTED = 'keys such as c, space, pagedown or ctrl+d';

const key = z.string(KEYS_WANTED).refine(isKey, KEYS_WANTED);

/** One key or a list of them. YAML reads a bare 1 as a number; as a key it is the digit. */
const keyList = z.codec(z.unknown(), z.array(key).min(1, KEYS_WANTED), {
  decode: (written) => [
    ...new Set([written].flat().map((one) => (typeof one === 'number' ? String(one) : one) as string)),
  ],
  encode: (keys) => keys,
});

/** However the keys are bound, there is a way out. */
const listFor = (action: string) =>
  action === 'leave' ? keyList.overwrite((keys) => [...new Set([...keys, LAST_WAY_OUT])]) : keyList;

export const ACTIONS: readonly string[] = KEYS.map(({ action }) => action);

const PLACES: readonly Place[] = [...new Set(KEYS.flatMap(({ places }) => places))];

interface Clash {
  /** The player's own, which keeps its usual keys until the clash is over. */
  readonly action: string;
  readonly sentence: string;
}

const clashOf = (name: string, first: string, second: string, dropped: string): Clash => ({
  action: dropped,
  sentence:
    `the key ${harmless(name)} is bound to both '${first}' and '${second}'; give one of them another key. ` +
    `Until then '${dropped}' keeps its usual one.`,
});

/** What one key would stand for beside another action in this place. */
function clashesIn(rows: readonly KeyRow[], own: OwnKeys): readonly Clash[] {
  const taken = new Map<string, KeyRow['action']>();
  return rows.flatMap(({ action, keys }) =>
    keys.flatMap((name) => {
      const other = taken.get(name);
      if (other === undefined) taken.set(name, action);
      return other === undefined ? [] : [clashOf(name, other, action, own[action] ? action : other)];
    }),
  );
}

/** The first clash of each action, over all places. A pedal's usual keys give way to the player's own. */
function clashes(own: OwnKeys): readonly Clash[] {
  const rows = withOwnKeys(own).filter((row) => own[row.action] || !isPedal(row));
  const all = PLACES.flatMap((place) => clashesIn(rowsFor(rows, place), own));
  return all.filter(({ action }, k) => all.findIndex((one) => one.action === action) === k);
}

/** Every action with its keys; a clash takes with it only the one that it is about, and is said in a sentence. */
export const ownKeys = z
  .strictObject(
    Object.fromEntries(ACTIONS.map((action) => [action, listFor(action).optional()])),
    'an action and its keys on each line, as clean: [c, pagedown]',
  )
  .superRefine((own, { addIssue }) => {
    for (const { action, sentence } of clashes(own as OwnKeys)) {
      addIssue({ code: 'custom', message: sentence, path: [action], params: { whole: true } });
    }
  }) as unknown as z.ZodType<OwnKeys>;
