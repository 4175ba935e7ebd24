/** The numbers that a report carries, read back from its page as data that may say anything; pure. */
import type { LineSummary, StudentSummary } from '../report/student-summary.ts';
import { SUMMARY_NAME } from '../report/report-page.ts';

type Json = Readonly<Record<string, unknown>>;

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['&amp;', '&'],
  ['&lt;', '<'],
  ['&gt;', '>'],
  ['&quot;', '"'],
  ['&#39;', "'"],
]);

const unescaped = (text: string): string =>
  text.replace(/&(?:amp|lt|gt|quot|#39);/g, (sign) => SIGNS.get(sign) ?? sign);

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= 500;
const isAmount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0 && value < 1e7;
const isDay = (value: unknown): value is string => typeof value === 'string' && /^\d{4}-\d\d-\d\d$/.test(value);
const orNull = (is: (value: unknown) => boolean, value: unknown): boolean => value === null || is(value);

const isLine = (value: unknown): value is LineSummary =>
  isObject(value) &&
  [value['title'], value['articulation'], value['key']].every(isText) &&
  isAmount(value['marks']) &&
  isAmount(value['clean']) &&
  orNull(isAmount, value['best']) &&
  orNull(isAmount, value['target']);

const isSummary = (value: unknown): value is StudentSummary =>
  isObject(value) &&
  value['v'] === 1 &&
  [value['from'], value['to']].every(isDay) &&
  [value['days'], value['minutes'], value['marks']].every(isAmount) &&
  orNull(isDay, value['lastDay']) &&
  Array.isArray(value['lines']) &&
  value['lines'].length <= 1000 &&
  value['lines'].every(isLine);

const CARRIED = new RegExp(`<meta name="${SUMMARY_NAME}" content="([^"]*)"`);

/** Null where the page is no report, or what it carries is not whole. */
export function summaryIn(page: string): StudentSummary | null {
  const carried = CARRIED.exec(page)?.[1];
  if (carried === undefined) return null;
  try {
    const value: unknown = JSON.parse(unescaped(carried));
    return isSummary(value) ? value : null;
  } catch {
    return null;
  }
}
