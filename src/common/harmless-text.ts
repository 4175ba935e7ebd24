/**
 * Characters that a terminal obeys or that turn the reading order round: C0 and C1 controls, DEL,
 * and the bidirectional overrides and isolates (Unicode UAX #9).
 */
const OBEYED = /[\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu;

export const holdsControls = (text: string): boolean => text.search(OBEYED) >= 0;

const spelled = (char: string): string => `\\u${(char.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`;

/** Text as it may be shown: what a terminal would obey is spelled out, and what is too long is cut. */
export function harmless(text: string, most = 60): string {
  const shown = text.replace(OBEYED, spelled);
  const chars = [...shown];
  return chars.length <= most ? shown : `${chars.slice(0, most - 1).join('')}…`;
}
