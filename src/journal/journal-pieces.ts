/** A journal read piece by piece: ten years are more than one text can hold. */
import { type Disk, bytesFrom } from './journal-disk.ts';
import { type Contents, journalParser } from './journal-lines.ts';

/** Told now and then how much of a journal has been read, 0 to 1. */
export type Progress = (share: number) => void;

const LINE_BREAK = 10;
const PIECE = 4 * 1024 * 1024;

/** Pieces that end with a line break go to the parser; what is left of a line waits for its end. */
export function parsePieces(disk: Disk, fd: number, progress: Progress): Contents {
  const parser = journalParser();
  const { size } = disk.fstatSync(fd);
  let begun: Buffer[] = [];
  for (let from = 0; from < size; from += PIECE) {
    const piece = bytesFrom(disk, fd, from, Math.min(size, from + PIECE));
    const end = piece.lastIndexOf(LINE_BREAK) + 1;
    if (end > 0) {
      parser.take(Buffer.concat([...begun, piece.subarray(0, end)]).toString('utf8'));
      begun = [];
    }
    begun.push(piece.subarray(end));
    progress(Math.min(1, (from + PIECE) / size));
  }
  parser.take(Buffer.concat(begun).toString('utf8'));
  return parser.contents();
}
