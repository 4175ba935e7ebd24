/** Why a file or a folder could not be used, in the player's words. The one table of the file system's codes. */

/** What was tried when it went wrong. */
export type Doing = 'read' | 'write';

/** A clause that follows 'X cannot be read: ', or stands alone behind a place in a file. */
const REASONS: Readonly<Record<string, string | Readonly<Record<Doing, string>>>> = {
  EACCES: 'you have no permission',
  EBUSY: 'another program is using it',
  EDQUOT: 'your share of the disk is used up',
  EEXIST: 'there is a file of that name',
  EFBIG: { read: 'it is larger than such a file can be', write: 'the file would grow too large' },
  EFTYPE: 'it is not an ordinary file',
  EIO: 'the disk reports an error',
  EISDIR: 'it is a folder',
  ELOOP: 'its links go in a circle',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
  ENFILE: 'too many files are open',
  ENOENT: { read: 'there is no such file', write: 'its path leads nowhere' },
  ENOSPC: 'the disk is full',
  ENOTDIR: 'there is a file in its way',
  EPERM: 'you have no permission',
  EROFS: 'it is on a disk that cannot be written to',
};

/**
 * `reasonOf(error, 'write')` is 'the disk is full' for an error with the code ENOSPC.
 * @throws the error itself where it is none of the system's: a surprise.
 */
export function reasonOf(error: unknown, doing: Doing): string {
  const code = (error as { readonly code?: unknown } | null)?.code;
  if (typeof code !== 'string') throw error;
  const reason = REASONS[code] ?? `the system says ${code}`;
  return typeof reason === 'string' ? reason : reason[doing];
}
