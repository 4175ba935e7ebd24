/** What is pasted is no keys. The marks are those of xterm's bracketed paste (its control sequences, mode 2004). */
import { Text } from 'ink';
import { render } from 'ink-testing-library';
import { describe, expect, it } from 'vitest';
import { asTyped, piecesOf } from '../../src/ui/pasted.ts';
import { type Desk, useKeyboard } from '../../src/ui/app.tsx';
import { KEYS } from '../../src/ui/keys.ts';
import { today } from './practice-states.ts';

const typed = (text: string) => ({ text, isPasted: false });
const pasted = (text: string) => ({ text, isPasted: true });

describe('a paste', () => {
  it.each([
    ['q', false, [typed('q')], false],
    ['q', true, [pasted('q')], true],
    ['[200~a q', false, [pasted('a q')], true],
    ['\u001b[200~a\u001b[201~q', false, [pasted('a'), typed('q')], false],
    ['b[201~', true, [pasted('b')], false],
    ['x[200~[201~y', false, [typed('x'), typed('y')], false],
    ['[200', false, [typed('[200')], false],
  ])('of %j (inside: %s) is told from keys', (input, inside, pieces, after) => {
    expect(piecesOf(input, inside)).toEqual({ pieces, isInside: after });
  });

  it('is one line of text where one is being written', () => {
    expect(asTyped('one\r\ntwo\tthree')).toBe('one two three');
  });
});

describe('at the keyboard', () => {
  const sit = () => {
    const acts: string[] = [];
    const desk: Desk = {
      state: () => today().stand(),
      subscribe: () => () => {},
      act: (action) => void acts.push(action),
    };
    const Keyboard = () => {
      useKeyboard(desk, KEYS);
      return <Text>.</Text>;
    };
    const { stdin } = render(<Keyboard />);
    const type = async (text: string) => {
      await new Promise((resolve) => setImmediate(resolve));
      stdin.write(text);
      await new Promise((resolve) => setImmediate(resolve));
    };
    return { acts, type };
  };

  it('a paste with a q in it does nothing, in one piece or in several; the q after it leaves', async () => {
    const { acts, type } = sit();
    await type('\u001b[200~q q\nq\u001b[201~');
    await type('\u001b[200~\u001b[201~');
    for (const piece of ['\u001b[200~', 'q', 'qq', '\u001b[201~']) await type(piece);
    expect(acts).toEqual([]);
    await type('q');
    expect(acts).toEqual(['leave']);
  });
});
