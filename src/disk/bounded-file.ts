/**
 * Files whose path somebody else may have chosen: ordinary ones only, since a pipe may never answer and a device never
 * ends, and no more bytes than asked for, counted while reading, since a file may grow meanwhile.
 */
import * as fs from 'node:fs';

const failed = (code: string, message: string): Error => Object.assign(new Error(`${code}: ${message}`), { code });

/** Nobody waits for a pipe's other end. Windows has no such flag, and no such pipes in folders. */
const NOT_WAITING = fs.constants.O_RDONLY | (fs.constants.O_NONBLOCK ?? 0);

const PIECE = 65_536;

function bytesOf(fd: number, most: number, sizeSaid: number): Buffer {
  const pieces: Buffer[] = [];
  for (let bytes = 0; ;) {
    // One byte more than is said to be there tells whether that was all.
    const piece = Buffer.alloc(Math.min(most + 1 - bytes, Math.max(PIECE, sizeSaid + 1 - bytes)));
    const read = fs.readSync(fd, piece, 0, piece.length, null);
    bytes += read;
    if (bytes > most) throw failed('EFBIG', 'larger than is read');
    pieces.push(piece.subarray(0, read));
    if (read === 0) return Buffer.concat(pieces);
  }
}

/**
 * All bytes of an ordinary file.
 * @param most bytes that are read
 * @throws the file system's error; EFTYPE where it is no ordinary file, EFBIG where it has more bytes.
 */
export function readBounded(path: string, most: number): Buffer {
  const fd = fs.openSync(path, NOT_WAITING);
  try {
    const found = fs.fstatSync(fd);
    if (found.isDirectory()) throw failed('EISDIR', 'a folder');
    if (!found.isFile()) throw failed('EFTYPE', 'no ordinary file');
    if (found.size > most) throw failed('EFBIG', 'larger than is read');
    return bytesOf(fd, most, found.size);
  } finally {
    fs.closeSync(fd);
  }
}
