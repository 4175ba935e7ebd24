/** Playing for a journey: start, and give each repetition its mark when it is due. */
import type { Mark } from '../../src/ladder/rule/ladder-rule.ts';
import type { Terminal } from './terminal.ts';

const KEYS: Readonly<Record<Mark, string>> = { clean: 'c', tense: 't', missed: 'm' };

/** '3 of 4 clean today': how many marks the screen says there are. */
const marksShown = (screen: string): number => Number(/\d+ of (\d+) clean today/.exec(screen)?.[1] ?? 0);

export const untilMarks = (terminal: Terminal, count: number): Promise<string> =>
  terminal.until(new RegExp(`\\b\\d+ of ${count} clean today`));

/** Waits for each breathing bar and marks; comes back when the screen has confirmed the last mark. */
export async function mark(terminal: Terminal, ...marks: readonly Mark[]): Promise<string> {
  let screen = await terminal.screen();
  for (const one of marks) {
    const before = marksShown(screen);
    await terminal.until(/BREATHE · mark\?|MARK\?/);
    await terminal.press(KEYS[one]);
    screen = await untilMarks(terminal, before + 1);
  }
  return screen;
}
