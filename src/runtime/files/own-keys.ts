/** The player's own keys, as the settings file has them: an action, and the keys that are to stand for it. */
import { z } from 'zod';
import { harmless } from '../../common/harmless-text.ts';
import { KEYS, type KeyRow, type OwnKeys, type Place, rowsFor, withOwnKeys } from '../../ui/keys.ts';

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

const LAST_WAY_OUT = 'ctrl+c';

/** However the keys are bound, there is a way out. */
const listFor = (action: string) =>
  action === 'leave' ? keyList.overwrite((keys) => [...new Set([...keys, LAST_WAY_OUT])]) : keyList;

export const ACTIONS: readonly string[] = KEYS.map(({ action }) => action);

const PLACES: readonly Place[] = [...new Set(KEYS.flatMap(({ places }) => places))];

/** The first two actions that one key would stand for in one place, as a sentence. */
function clash(rows: readonly KeyRow[]): string | null {
  for (const place of PLACES) {
    const taken = new Map<string, string>();
    for (const { action, keys } of rowsFor(rows, place)) {
      for (const name of keys) {
        const other = taken.get(name);
        if (other)
          return `the key ${harmless(name)} is bound to both '${other}' and '${action}'; give one of them another key.`;
        taken.set(name, action);
      }
    }
  }
  return null;
}

/** Every action with its keys; a clash is said in a sentence of its own. */
export const ownKeys = z
  .strictObject(
    Object.fromEntries(ACTIONS.map((action) => [action, listFor(action).optional()])),
    'an action and its keys on each line, as clean: [c, pagedown]',
  )
  .superRefine((own, { addIssue }) => {
    const sentence = clash(withOwnKeys(own as OwnKeys));
    if (sentence !== null) addIssue({ code: 'custom', message: sentence, params: { whole: true } });
  }) as unknown as z.ZodType<OwnKeys>;
