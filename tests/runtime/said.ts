/** The sentence with which something ends; a surprise is no sentence. */
import { Trouble } from '../../src/common/trouble.ts';

export function said(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof Trouble) return error.message;
    throw error;
  }
  return '';
}
