/** Text of the player's, or of a stranger's file, on its way into a page: it can say words and nothing more; pure. */
import { harmless } from '../../common/harmless-text.ts';

/** What neither a screen nor a page should obey, beside what `harmless` spells out: marks that are not seen. */
const UNSEEN = /[\u00ad\u061c\u200b-\u200d\u2028\u2029\u2060]/g;

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** `words('<b>')` is '&lt;b&gt;'; controls are spelled out, and what is too long is cut. */
export const words = (text: string, most = 80): string =>
  harmless(text.replace(UNSEEN, ''), most).replace(/[&<>"']/g, (sign) => SIGNS[sign] ?? '');

/** A table with a heading for each column; the first cell of a row is its heading. Cells are markup already. */
export function table(caption: string, heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const head = heads.map((text) => `<th scope="col">${text}</th>`).join('');
  const body = rows.map(
    ([first = '', ...rest]) =>
      `<tr><th scope="row">${first}</th>${rest.map((cell) => `<td>${cell}</td>`).join('')}</tr>`,
  );
  return (
    `<div class="wide" role="region" tabindex="0" aria-label="${caption}"><table><caption>${caption}</caption>` +
    `<thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table></div>`
  );
}
