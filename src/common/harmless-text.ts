/**
 * The one set of characters that a terminal obeys, that turn the reading order round, or that nobody sees: C0 and C1
 * controls and DEL; the bidirectional marks, overrides and isolates (Unicode UAX #9); line and paragraph separators;
 * the soft hyphen and signs of no width. A joiner (U+200D) belongs to the emoji behind it and is harmless there.
 */
const SET = '\\p{Cc}\\u00ad\\u061c\\u200b\\u200c\\u200e\\u200f\\u2028-\\u202e\\u2060-\\u2064\\u2066-\\u2069\\ufeff';
const JOINER = '\\u200d(?!\\p{Extended_Pictographic})';

const ANY = new RegExp(`[${SET}]|${JOINER}`, 'u');
const ALL = new RegExp(`[${SET}]|${JOINER}`, 'gu');
const ALL_BUT_BREAKS = new RegExp(`(?!\\n)[${SET}]|${JOINER}`, 'gu');

export const holdsControls = (text: string): boolean => ANY.test(text);

const spelled = (char: string): string => `\\u${(char.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`;

/** Text as it may be shown: what a terminal would obey is spelled out, and what is too long is cut. */
export function harmless(text: string, most = 60): string {
  const shown = text.replace(ALL, spelled);
  const chars = [...shown];
  return chars.length <= most ? shown : `${chars.slice(0, most - 1).join('')}…`;
}

/** Lines as they may be printed, JSON among them: `harmlessLines('a\u001b[2J\nb')` has its escape spelled out. */
export const harmlessLines = (text: string): string => text.replace(ALL_BUT_BREAKS, spelled);

/** `withSign('a\u202eb', ' ')` is 'a b': for places where each sign has its column. */
export const withSign = (text: string, sign: string): string => (ANY.test(text) ? text.replace(ALL, sign) : text);
