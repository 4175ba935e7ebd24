/** Values as a person would write them in a routine file: on one line, quoted only where it is needed. */
import { Document, isScalar, visit } from 'yaml';

/** What a setting may hold, as it is written. */
export type Written = string | number | boolean | readonly Written[] | { readonly [name: string]: Written | undefined };

/** Nothing is folded, and brackets stand close: `[C, F]`. */
const AS_WRITTEN = { lineWidth: 0, flowCollectionPadding: false } as const;

/** Text of more than one line stays within quotes, so that a value is always one line. */
function onOneLine(document: Document): Document {
  visit(document, {
    Collection: (_, node) => void (node.flow = true),
    Scalar: (_, node) => {
      if (isScalar(node) && typeof node.value === 'string' && node.value.includes('\n')) node.type = 'QUOTE_DOUBLE';
    },
  });
  return document;
}

/** `flowText(['C', 'F'])` is '[C, F]'; text that would mean something else in brackets is quoted. */
export const flowText = (value: Written): string =>
  onOneLine(new Document([value]))
    .toString(AS_WRITTEN)
    .trimEnd()
    .slice(1, -1);

/** `lineText('title', 'Page 12')` is 'title: Page 12'. */
export function lineText(name: string, value: Written): string {
  const document = new Document({ [name]: value });
  const written = onOneLine(document);
  if (written.contents) Object.assign(written.contents, { flow: false });
  return written.toString(AS_WRITTEN).trimEnd();
}

/** What stands behind the name and its colon. */
export const valueText = (value: Written): string => lineText('a', value).slice('a: '.length);
