import { useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Lettering } from '../music/page/strip.ts';

import { leftOpen } from '../practice/sitting/sitting.ts';
import { isRunning } from '../practice/line/line-state.ts';
import { noteNow } from '../practice/screens/note-typing.ts';
import { type Action, type Stand, practiceOf } from '../practice/stand.ts';
import { foot } from './components/foot-line.ts';
import { type Paint, PaintContext, Painting } from './components/painting.tsx';
import { keyNames } from './key-names.ts';
import { type Circumstance, type KeyRow, actionFor } from './keys.ts';
import { type PaintedLine, fit, line, seg, toHeight } from './paint.ts';
import { drawScreen } from './screens/all-screens.ts';
import { helpScreen } from './screens/help-screen.ts';

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

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** Below this the ladder cannot be read. */
const SMALLEST: Size = { columns: 64, rows: 20 };

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

const tooSmall = ({ columns, rows }: Size): readonly PaintedLine[] => {
  const words = `Make this window larger: ${SMALLEST.columns} by ${SMALLEST.rows} at least.`;
  return toHeight([line(seg(words))], rows).map((painted) => fit(painted, columns));
};

const isGoing = (stand: Stand): boolean => {
  const practice = practiceOf(stand);
  if (practice) return isRunning(practice);
  return stand.view.screen === 'block' && stand.sitting?.run.phase === 'playing';
};

/** What some keys wait for. */
const circumstances = (stand: Stand): readonly Circumstance[] => [
  ...(stand.sitting ? (['sitting'] as const) : []),
  ...(isGoing(stand) ? (['running'] as const) : []),
  ...(stand.view.screen === 'today' && leftOpen(stand) ? (['left open'] as const) : []),
];

function draw(stand: Stand, keys: readonly KeyRow[], size: Size, lettering: Lettering): readonly PaintedLine[] {
  const { columns, rows } = size;
  const { screen } = stand.view;
  if (columns < SMALLEST.columns || rows < SMALLEST.rows) return tooSmall(size);
  const now = circumstances(stand);
  if (stand.help) return toHeight(helpScreen(keys, screen, now, columns), rows);
  return drawScreen(stand, { columns, rows, lettering, foot: foot(keys, screen, now, columns) });
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
      <Painting lines={draw(stand, keys, size, lettering)} />
    </PaintContext.Provider>
  );
}
