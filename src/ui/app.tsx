import { lineName } from '../ladder/line.ts';
import { useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Lettering } from '../music/page/strip.ts';

import { leftOpen } from '../practice/sitting/sitting.ts';
import { isRunning } from '../practice/line/line-on-stand.ts';
import { easeNow } from '../practice/sitting/ease-remarks.ts';
import type { Action, Stand } from '../practice/stand.ts';
import { foot } from './components/foot-line.ts';
import { type Paint, PaintContext, Painting } from './components/painting.tsx';
import { keyNames } from './key-names.ts';
import { type Circumstance, type KeyRow, actionFor } from './keys.ts';
import { type PaintedLine, fit, line, seg, toHeight } from './paint.ts';
import { blockScreen } from './screens/block-screen.ts';
import { endScreen } from './screens/end-screen.ts';
import { exercisesScreen } from './screens/exercises-screen.ts';
import { helpScreen } from './screens/help-screen.ts';
import { practiceStrip } from './screens/practice-strip.ts';
import { practiceScreen } from './screens/practice-screen.ts';
import { settingsScreen } from './screens/settings-screen.ts';
import { viewOf } from './screens/sitting-lines.ts';
import { todayScreen } from './screens/today-screen.ts';
import { waysScreen } from './screens/ways-screen.ts';
import { weeksScreen } from './screens/weeks-screen.ts';

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

const isGoing = ({ screen, practice, run }: Stand): boolean =>
  screen === 'block' ? run?.phase === 'playing' : practice !== null && isRunning(practice);

/** What some keys wait for. */
const circumstances = (stand: Stand): readonly Circumstance[] => [
  ...(stand.run ? (['sitting'] as const) : []),
  ...(isGoing(stand) ? (['running'] as const) : []),
  ...(stand.screen === 'today' && leftOpen(stand, 0) ? (['left open'] as const) : []),
];

function draw(stand: Stand, keys: readonly KeyRow[], size: Size, lettering: Lettering): readonly PaintedLine[] {
  const { columns, rows } = size;
  if (columns < SMALLEST.columns || rows < SMALLEST.rows) return tooSmall(size);
  if (stand.help) return toHeight(helpScreen(keys, stand.screen, circumstances(stand), columns), rows);
  const keysHere = foot(keys, stand.screen, circumstances(stand), columns);
  const { practice, output } = stand;
  if (stand.screen === 'block') return blockScreen(stand, keysHere, columns, rows);
  if (stand.screen === 'ways' && stand.ways) return waysScreen(stand.ways, keysHere, columns, rows);
  if (stand.screen === 'weeks') return weeksScreen(stand, keysHere, columns, rows);
  if (stand.screen === 'settings') return settingsScreen(stand, keysHere, columns, rows);
  if (stand.screen === 'end') return endScreen(stand, keysHere, columns, rows);
  if (stand.screen === 'exercises') return exercisesScreen(stand, keysHere, columns, rows);
  if (stand.screen === 'today' || !practice) return todayScreen(stand, keysHere, columns, rows);
  const history = stand.lines[lineName(practice.line)] ?? null;
  return practiceScreen(
    {
      practice,
      history,
      today: stand.today,
      output,
      view: viewOf(stand),
      ease: easeNow(stand),
      wall: stand.wall,
      estimate: stand.estimate,
      strip: practiceStrip(practice, columns, rows, lettering),
      foot: keysHere,
    },
    columns,
    rows,
  );
}

export function App({ desk, keys, paint, lettering = 'signs' }: AppProps) {
  const stand = useSyncExternalStore(desk.subscribe, desk.state);
  const size = useSize();
  useInput((input, key) => {
    for (const name of keyNames(input, key)) {
      const now = desk.state();
      const { screen, help, note } = now;
      // A note takes every key as it is.
      if (note !== null) {
        desk.act('note', name);
        continue;
      }
      const action = actionFor(keys, screen, name, circumstances(now));
      if (action) desk.act(action, name);
      else if (help) desk.act('help', name);
    }
  });
  return (
    <PaintContext.Provider value={paint}>
      <Painting lines={draw(stand, keys, size, lettering)} />
    </PaintContext.Provider>
  );
}
