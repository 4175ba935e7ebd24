import { useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Lettering } from '../music/page/strip.ts';

import { noteNow } from '../practice/screens/note-typing.ts';
import type { Action, Stand } from '../practice/stand.ts';
import { type Paint, PaintContext, Painting } from './components/painting.tsx';
import { keyNames } from './key-names.ts';
import { type KeyRow, actionFor } from './keys.ts';
import { type Size, circumstances, wholeScreen } from './whole-screen.ts';

/** What the screen needs of the running program: its state, and a place to send the player's actions to. */
export interface Desk {
  state(): Stand;
  subscribe(listener: () => void): () => void;
  act(action: Action, key: string): void;
}

export interface AppProps {
  readonly desk: Desk;
  readonly keys: readonly KeyRow[];
  readonly paint: Paint;
  readonly lettering?: Lettering;
}

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

export function App({ desk, keys, paint, lettering = 'signs' }: AppProps) {
  const stand = useSyncExternalStore(desk.subscribe, desk.state);
  const size = useSize();
  useInput((input, key) => {
    for (const name of keyNames(input, key)) {
      const now = desk.state();
      const { screen } = now.view;
      // A note takes every key as it is.
      if (noteNow(now) !== null) {
        desk.act('note', name);
        continue;
      }
      const action = actionFor(keys, screen, name, circumstances(now));
      if (action) desk.act(action, name);
      else if (now.help) desk.act('help', name);
    }
  });
  return (
    <PaintContext.Provider value={paint}>
      <Painting lines={wholeScreen(stand, keys, size, lettering)} />
    </PaintContext.Provider>
  );
}
