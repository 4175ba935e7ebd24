/** Short names for what is written on the screen: for the file, and for ever under which marks are kept. */

const LONGEST = 40;

/** `shortName('Blue folder, p. 12')` is 'blue-folder-p-12'; letters with accents lose them. */
export const shortName = (title: string): string =>
  title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-+|-+$/g, '');

/** A name that nothing has yet: 'scales', 'scales-2', ... A title without a Latin letter becomes `otherwise`. */
export function newName(title: string, taken: ReadonlySet<string>, otherwise = 'exercise'): string {
  const base = shortName(title) || otherwise;
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? base : `${base}-${n}`;
    if (!taken.has(name)) return name;
  }
}
