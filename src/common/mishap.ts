/** Trouble that was to be expected, as a value: where it happened and one sentence for the player. */
export interface Mishap {
  readonly mishap: true;
  /** A file, or a file and a line. */
  readonly where: string;
  readonly sentence: string;
}

export const mishap = (where: string, sentence: string): Mishap => ({ mishap: true, where, sentence });

export const isMishap = (value: unknown): value is Mishap =>
  typeof value === 'object' && value !== null && (value as Partial<Mishap>).mishap === true;

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'the file would grow too large',
  EACCES: 'you have no permission',
  EPERM: 'you have no permission',
  EROFS: 'the disk cannot be written to',
  ENOENT: 'it is not there',
  EISDIR: 'it is a folder',
  ENOTDIR: 'there is a file where a folder should be',
  EIO: 'the disk reports an error',
};

/** A file system error as a value; anything else is a surprise and thrown on. */
export function fileMishap(error: unknown, path: string, doing: string): Mishap {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  if (typeof code !== 'string') throw error;
  return mishap(path, `${path} cannot be ${doing}: ${REASONS[code] ?? code}.`);
}
