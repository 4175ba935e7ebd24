/** What a file's text itself says of an exercise: also what no form shows, such as its register, click and layers. */
import type { WrittenExercise, WrittenRoutine } from '../file/routine-schema.ts';
import { readYaml } from '../file/yaml-places.ts';
import type { Written } from './written-text.ts';

type Said = Readonly<Record<string, Written>>;

/** These are each exercise's own: a copy is called otherwise, and what was played of the first is not the copy's. */
const NOT_COPIED: readonly string[] = ['title', 'history', 'retired'];

/** Of a register and a starting note the exercise's own one counts, and the file's goes. */
const placeOnce = (own: WrittenExercise, defaults: Said): Said =>
  own.register === undefined && own.from === undefined
    ? defaults
    : Object.fromEntries(Object.entries(defaults).filter(([name]) => name !== 'register' && name !== 'from'));

/**
 * The settings of an exercise with those that its file says once for all, so that a copy in another file plays the
 * same. Null where a text that was read as a routine file does not have it.
 */
export function saidInFile(text: string, name: string): Said | null {
  const yaml = readYaml(text.replace(/^\ufeff/, ''), name);
  if ('troubles' in yaml) return null;
  const written = yaml.value as WrittenRoutine;
  const own = written.exercises?.[name];
  if (own === undefined) return null;
  const defaults = placeOnce(own, (written.defaults ?? {}) as Said);
  const click = own.click && written.defaults?.click ? { click: { ...written.defaults.click, ...own.click } } : {};
  const all = { ...defaults, ...(own as Said), ...(click as Said) };
  return Object.fromEntries(Object.entries(all).filter(([setting]) => !NOT_COPIED.includes(setting)));
}
