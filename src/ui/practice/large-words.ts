/** Said in large letters before and while it is played: the layer, the fingering, what to do on a way round a wall. */
import { layerNow } from '../../practice/sitting/layer-now.ts';
import type { Passage } from '../../ladder/wall/ways-round.ts';
import { passageNow } from '../../practice/line/line-state.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import type { KnownSoFar } from '../../practice/stand.ts';
import { hasFigures, largestCells, tallText } from '../components/tall-figures.ts';
import { BLANK, type PaintedLine, fit, line, seg } from '../paint.ts';

/** 'WHISPER THE SYLLABLES', 'MOVE THE FINGERS', 'NO TONE': what is to be done on a way round a wall. */
const instruction = ({ say }: Passage): readonly string[] => say.replace(' %', ' per cent').toUpperCase().split(', ');

/** 'SING AND PLAY'; 'ORDINARY' and 'ALTERNATE' where keys come in pairs of fingerings. */
export function wordsToRead(known: KnownSoFar, practice: Practice): readonly string[] {
  const passage = passageNow(practice);
  if (passage) return instruction(passage);
  const { exercise, fingering } = practice;
  const layer = layerNow(known, practice);
  return [...(layer ? [layer] : []), ...(exercise.rotation?.fingerings ? [fingering] : [])].map((word) =>
    word.toUpperCase(),
  );
}

/** Over two lines where that makes them larger: 'SING AND' and 'PLAY'. */
function halves(text: string): readonly string[] {
  const middle = text.length / 2;
  const blanks = [...text.matchAll(/ /g)].map(({ index }) => index);
  const at = blanks.toSorted((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
  return at === undefined ? [text] : [text.slice(0, at), text.slice(at + 1)];
}

const inverse = (text: string, columns: number): PaintedLine =>
  fit(line(seg(` ${[...text].join(' ').length + 2 <= columns ? [...text].join(' ') : text} `, 'now')), columns);

const isTallIn = (text: string, columns: number): boolean =>
  hasFigures(text) && largestCells(text, columns - 1, 5) !== null;

const tall = (text: string, columns: number): readonly PaintedLine[] => {
  const size = largestCells(text, columns - 1, 5);
  return size ? tallText(text, size).map((row) => line(seg(` ${row}`, 'large'))) : [];
};

/** As tall as there is room for; else each as a bar in inverse letters, and the blank line after them. */
export function largeWords(words: readonly string[], columns: number, rows: number): readonly PaintedLine[] {
  if (words.length === 0) return [];
  const layouts = [words, words.flatMap(halves)];
  const fits = (texts: readonly string[]): boolean =>
    texts.length * 6 <= rows && texts.every((text) => isTallIn(text, columns));
  const found = layouts.find(fits);
  if (found) return found.flatMap((text) => [...tall(text, columns), BLANK]);
  return [...words.map((text) => inverse(text, columns)), BLANK].slice(0, Math.max(1, rows));
}
