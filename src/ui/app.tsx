import { type Key, useInput, useStdout } from 'ink';
import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Lettering } from '../music/page/strip.ts';

import { takesText } from '../practice/screens/typing.ts';
import type { Settings } from '../practice/settings.ts';
import type { Action, Stand } from '../practice/stand.ts';
import { type Paint, PaintContext, Painting } from './components/painting.tsx';
import { asTyped, piecesOf } from './pasted.ts';
import { keyNames, textKeys } from './key-names.ts';
import { type KeyRow, LAST_WAY_OUT, actionFor, isPedal } from './keys.ts';
import { FormPage } from './forms/form-page.tsx';
import { type Size, circumstances, isForm, wholeScreen } from './whole-screen.ts';

/** What the screen needs of the running program: its state, and a place to send the player's actions to. */
export interface Desk {
  state(): Stand;
  subscribe(listener: () => void): () => void;
  act(action: Action, key: string): void;
}

/** How it is drawn, and which keys there are. */
export interface Look {
  readonly keys: readonly KeyRow[];
  readonly lettering?: Lettering;
  /** No picture of the beat. */
  readonly isStill?: boolean;
}

export interface AppProps extends Look {
  readonly desk: Desk;
  readonly paint: Paint;
  /** What the settings of the moment make of it; as it is given when absent. */
  readonly look?: (settings: Settings) => Look;
}

/** As the settings have it now. */
export const lookNow = ({ desk, look, ...given }: Look & Pick<AppProps, 'desk' | 'look'>): Look =>
  look?.(desk.state().settings) ?? given;

function useSize(): Size {
  const { stdout } = useStdout();
  const measure = (): Size => ({
    columns: stdout.columns || 80,
    rows: stdout.rows || 24,
  });
  const [size, setSize] = useState(measure);
  useEffect(() => {
    const onResize = () => setSize(measure());
    stdout.on('resize', onResize);
    return () => void stdout.off('resize', onResize);
  });
  return size;
}

/** What a pedal sends, under its usual name, whatever it is set to; a letter stays a letter where one types. */
function pedalSent(keys: readonly KeyRow[], name: string): string | null {
  if ([...name].length === 1 || name === 'space') return null;
  const row = keys.find((one) => isPedal(one) && one.keys.includes(name));
  return row ? (row.action === 'pedal-forward' ? 'pagedown' : 'pageup') : null;
}

/** One key by its name. A text that is being written takes every key as it is, but the last way out. */
function actOn(desk: Desk, keys: readonly KeyRow[], name: string): void {
  const now = desk.state();
  const { screen } = now.view;
  if (name === LAST_WAY_OUT) return desk.act('leave', name);
  if (takesText(now) || screen === 'form')
    return desk.act(name === 'ctrl+z' ? 'suspend' : 'type', pedalSent(keys, name) ?? name);
  const action = actionFor(keys, screen, name, circumstances(now));
  if (action) desk.act(action, name);
  else if (now.help) desk.act('help', name);
}

/** Where an end of a line in what is pasted would keep something; three questions take theirs as answers. */
const isWriting = (stand: Stand): boolean => takesText(stand) && stand.view.screen !== 'first';

/** What came from the keyboard in one go, key by key. */
export const keyPressed = (desk: Desk, keys: readonly KeyRow[], input: string, key: Key): void =>
  (isWriting(desk.state()) ? textKeys : keyNames)(input, key).forEach((name) => actOn(desk, keys, name));

const NO_KEY: Key = {
  upArrow: false,
  downArrow: false,
  leftArrow: false,
  rightArrow: false,
  pageDown: false,
  pageUp: false,
  home: false,
  end: false,
  return: false,
  escape: false,
  ctrl: false,
  shift: false,
  tab: false,
  backspace: false,
  delete: false,
  meta: false,
  super: false,
  hyper: false,
  capsLock: false,
  numLock: false,
};

/** What is pasted is taken where a text is being written, and nowhere else. */
function paste(desk: Desk, keys: readonly KeyRow[], text: string): void {
  const { view } = desk.state();
  if (takesText(desk.state()) || view.screen === 'form' || view.screen === 'list')
    keyPressed(desk, keys, asTyped(text), NO_KEY);
}

/** Keys and pasted text from the keyboard, on their way to the desk. */
export function useKeyboard(desk: Desk, keys: readonly KeyRow[]): void {
  const inside = useRef(false);
  useInput((input, key) => {
    const { pieces, isInside } = piecesOf(input, inside.current);
    const isPlain = !inside.current && !isInside && (pieces[0]?.text ?? '') === input;
    inside.current = isInside;
    if (isPlain) return keyPressed(desk, keys, input, key);
    for (const { text, isPasted } of pieces)
      if (isPasted) paste(desk, keys, text);
      else keyPressed(desk, keys, text, NO_KEY);
  });
}

export function App({ paint, ...props }: AppProps) {
  const { desk } = props;
  const stand = useSyncExternalStore(desk.subscribe, desk.state);
  const { keys, lettering = 'signs', isStill = false } = lookNow(props);
  const size = useSize();
  useKeyboard(desk, keys);
  return (
    <PaintContext.Provider value={paint}>
      {isForm(stand) ? (
        <FormPage stand={stand} keys={keys} size={size} lettering={lettering} />
      ) : (
        <Painting lines={wholeScreen(stand, keys, size, lettering, isStill)} />
      )}
    </PaintContext.Provider>
  );
}
