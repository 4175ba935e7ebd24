/** A key's name in as few letters as can be. */
import { withSigns } from './note-names.ts';

/** `keyLetters('F# minor')` is 'F♯m': what can be read from across the room. */
export const keyLetters = (key: string): string => {
  const [tonic = '', ...mode] = withSigns(key).split(' ');
  return tonic + (mode.includes('minor') ? 'm' : '');
};
