/** The program in lines, one below the other, through Ink's own output: for terminals that are read out. */
import { Static, Text } from 'ink';
import { useEffect, useState } from 'react';
import { withSign } from '../../common/harmless-text.ts';
import { type AppProps, lookNow, useKeyboard } from '../app.tsx';
import { plainLetters } from '../plain-letters.ts';
import { pageLines } from './pages.ts';
import { type Said, changed, sayings, withSaid } from './spoken.ts';

/** Calls back with what is new after each thing that happens, beginning with all there is. */
function listen({ desk, ...look }: LinesProps, say: (lines: readonly string[]) => void): () => void {
  let said: Said = new Map();
  let shown: readonly string[] = [];
  const hear = (): void => {
    const stand = desk.state();
    const now = sayings(stand);
    const page = pageLines(stand, lookNow({ desk, ...look }).keys);
    const lines = [...changed(said, now), ...page.filter((one) => !shown.includes(one))];
    [said, shown] = [withSaid(said, now), page];
    if (lines.length > 0) say(lines);
  };
  hear();
  return desk.subscribe(hear);
}

export type LinesProps = Omit<AppProps, 'paint'>;

export function LinesApp(props: LinesProps) {
  const { desk, keys: given, look } = props;
  const { keys, lettering = 'signs' } = lookNow(props);
  const [said, setSaid] = useState<readonly string[]>([]);
  useEffect(() => {
    const say = (lines: readonly string[]): void => setSaid((all) => [...all, ...lines]);
    return listen({ desk, keys: given, ...(look ? { look } : {}) }, say);
  }, [desk, given, look]);
  useKeyboard(desk, keys);
  return (
    <Static items={[...said]}>
      {(line, at) => <Text key={at}>{withSign(lettering === 'plain' ? plainLetters(line) : line, '\ufffd')}</Text>}
    </Static>
  );
}
