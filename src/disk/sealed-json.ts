/** A JSON document that says in its first field what the rest of it adds up to, so that damage is noticed. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { SyncAdapter } from 'lowdb';
import { replaceFile } from './whole-file.ts';

/** SHA-256 as FIPS 180-4 has it, in small letters. */
const sealOf = (text: string): string => createHash('sha256').update(text).digest('hex');

const SEALED = /^\{"seal":"([0-9a-f]{64})",/;

/** Null where the text is not sealed, or something in it has changed since. */
function opened<T>(text: string): T | null {
  const seal = SEALED.exec(text);
  if (!seal || sealOf(text.slice(seal[0].length)) !== seal[1]) return null;
  return JSON.parse(text) as T;
}

function sealed(document: object): string {
  const rest = JSON.stringify(document).slice(1);
  return `{"seal":"${sealOf(rest)}",${rest}`;
}

/** For the owner's eyes only; null where there is no document, or a damaged one. Any other error is thrown. */
export const sealedJson = <T extends object>(path: string): SyncAdapter<T | null> => ({
  read: () => {
    try {
      return opened<T>(readFileSync(path, 'utf8'));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  },
  write: (document) => replaceFile(path, document === null ? '' : sealed(document), undefined, { mode: 0o600 }),
});
