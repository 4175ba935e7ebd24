/**
 * What is pasted is no keys: a text with a q in it must not leave the program. Terminals that know bracketed paste
 * (xterm's mode 2004) put marks round it; the escape character before each is taken off by who reads the keys.
 */
// oxlint-disable-next-line no-control-regex -- the beginning of a control sequence is what is looked for
const MARK = /\u{1b}?\[(20[01])~/u;

/** A piece of what came in, and whether it lies inside a paste. */
export interface Piece {
  readonly text: string;
  readonly isPasted: boolean;
}

/**
 * `piecesOf('[200~a q[201~q', false)` is 'a q' pasted and 'q' typed; `isInside` is then false: whether the next input
 * goes on inside.
 */
export function piecesOf(
  input: string,
  isInside: boolean,
): { readonly pieces: readonly Piece[]; readonly isInside: boolean } {
  const pieces: Piece[] = [];
  let inside = isInside;
  for (const [i, part] of input.split(MARK).entries()) {
    if (i % 2 === 1) inside = part === '200';
    else if (part !== '') pieces.push({ text: part, isPasted: inside });
  }
  return { pieces, isInside: inside };
}

/** As one line of typing: line breaks and what a terminal would obey are blanks. */
export const asTyped = (text: string): string => text.replaceAll(/\p{Cc}+/gu, ' ');
