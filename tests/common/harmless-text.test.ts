/** What a terminal obeys, what turns the reading order round, and what nobody sees. */
import { describe, expect, it } from 'vitest';
import { harmless, harmlessLines, holdsControls, withSign } from '../../src/common/harmless-text.ts';

/**
 * ECMA-48 (C0, C1), Unicode's Bidi_Control (PropList.txt), its line and paragraph separators, the soft hyphen, and the
 * zero-width signs of General Punctuation.
 */
const HARMFUL = [
  [0x00, 0x07, 0x08, 0x09, 0x0d, 0x1b, 0x1f, 0x7f, 0x80, 0x90, 0x9b, 0x9d, 0x9f],
  [0x061c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069],
  [0x2028, 0x2029, 0x00ad, 0x200b, 0x200c, 0x200d, 0x2060, 0xfeff],
].flatMap((codes) => codes.map((code) => String.fromCodePoint(code)));

const FINE = ['a', ' ', 'ä', '\u266d', '…', '練', '👩‍🎤', 'e\u0301', '\u00a0', '‑'];

describe('harmful characters', () => {
  it.each(HARMFUL.map((char) => [char.codePointAt(0)?.toString(16).padStart(4, '0'), char]))('U+%s', (code, char) => {
    expect(holdsControls(`a${char}b`)).toBe(true);
    expect(harmless(`a${char}b`)).toBe(`a\\u${code}b`);
    expect(harmlessLines(`a${char}b\n`)).toBe(`a\\u${code}b\n`);
    expect(withSign(`a${char}b`, '.')).toBe('a.b');
  });

  it('in JSON are the same ones, written another way', () => {
    const value = { [`a${HARMFUL.join('')}`]: `b${HARMFUL.join('')}\n` };
    const text = harmlessLines(JSON.stringify(value, null, 2));
    expect(JSON.parse(text)).toEqual(value);
    expect([...text].filter((char) => HARMFUL.includes(char))).toEqual([]);
  });
});

it.each(FINE)('%s is harmless', (text) => {
  expect(holdsControls(text)).toBe(false);
  expect(harmless(text)).toBe(text);
  expect(withSign(text, '.')).toBe(text);
});
