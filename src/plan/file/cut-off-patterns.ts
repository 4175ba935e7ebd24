/**
 * Patterns that YAML cuts off: a sharp after a space begins a comment there, and a comma inside { } the next setting.
 */
import { type Path } from './place-in-file.ts';

/** A plain pattern up to a sharp after a space, on its own line or at the beginning of the next. */
const CUT = /^pattern\s*:(?![ \t]*['"|>])[^#}\n]*?(?:[ \t]|\n[ \t]+)(?=#{1,2}\d)/;

/** The same anywhere in a text that is no YAML because of it; not in comments and quotes. */
const CUT_ANYWHERE = /^[^#'"\n]{0,400}?\bpattern\s*:(?![ \t]*['"|>])[^#}\n'"]{0,8000}?[ \t](?=#{1,2}\d)/gm;

export const BY_SHARP =
  'a # after a space begins a comment, which would cut the pattern off here; put the whole pattern in quotes.';

const BY_COMMA =
  'a comma inside { } begins the next setting, which would cut the pattern off; put the whole pattern in quotes.';

/** Offsets of the sharps that cut a pattern off, in a text that could not be parsed. */
export const cutsIn = (text: string): readonly number[] =>
  [...text.matchAll(CUT_ANYWHERE)].map((found) => found.index + found[0].length);

/**
 * How far behind the name 'pattern' a sharp cuts it off, from the text that begins with that name; null where none
 * does.
 */
export const cutAfter = (text: string): number | null => CUT.exec(text)?.[0].length ?? null;

/** What to say of an unknown setting that is the rest of a pattern; null of any other. */
export const cutByComma = (path: Path, name: string): string | null =>
  path[0] === 'exercises' && path.length === 2 && /^[\s|(:]*[#b♯♭]*(?:\d|[rz]\b)/u.test(name) ? BY_COMMA : null;

/** Where the patterns of a file's plain value stand, whatever else is in it. */
export function patternPaths(value: unknown): readonly Path[] {
  const exercises = (value as { readonly exercises?: unknown } | null)?.exercises;
  if (typeof exercises !== 'object' || exercises === null) return [];
  return Object.entries(exercises).flatMap(([id, exercise]) =>
    typeof exercise === 'object' && exercise !== null && 'pattern' in exercise ? [['exercises', id, 'pattern']] : [],
  );
}
