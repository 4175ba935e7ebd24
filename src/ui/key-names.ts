import type { Key } from 'ink';

const NAMED: readonly (readonly [keyof Key, string])[] = [
  ['upArrow', 'up'],
  ['downArrow', 'down'],
  ['leftArrow', 'left'],
  ['rightArrow', 'right'],
  ['pageDown', 'pagedown'],
  ['pageUp', 'pageup'],
  ['return', 'enter'],
  ['escape', 'escape'],
  ['tab', 'tab'],
  ['backspace', 'backspace'],
  ['delete', 'backspace'],
];

/** Keys that come as signs where several come in one go. */
const SIGNS: Readonly<Record<string, string>> = {
  '\t': 'tab',
  '\r': 'enter',
  '\n': 'enter',
  '\u007f': 'backspace',
};

/** What came in one go, key by key: a quick hand or a slow line may bring several at once. */
export const keyNames = (input: string, key: Key): readonly string[] =>
  [...input].length > 1 && !key.ctrl && !key.meta
    ? [...input].map((one) => SIGNS[one] ?? keyName(one, key))
    : [keyName(input, key)];

/** The name by which `keys.ts` and the settings file know a key: 'c', 'space', 'pagedown', 'ctrl+c'. */
export function keyName(input: string, key: Key): string {
  const named = NAMED.find(([flag]) => key[flag] === true);
  if (named) return named[1];
  if (key.ctrl) return `ctrl+${input}`;
  return input === ' ' ? 'space' : input;
}

/** The same where a text is being written: the ends of lines within what is pasted are blanks, and keep nothing. */
export function textKeys(input: string, key: Key): readonly string[] {
  const names = keyNames(input, key);
  return names.map((name, i) => (name === 'enter' && i < names.length - 1 ? 'space' : name));
}
