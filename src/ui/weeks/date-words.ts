/** Days as they stand beside a chart. */
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** `monthOf('2026-11-25')` is 'Nov'. */
export const monthOf = (day: string): string => MONTHS[Number(day.slice(5, 7)) - 1] ?? '';

/** `dayAndMonth('2026-11-05')` is '5 Nov'. */
export const dayAndMonth = (day: string): string => `${Number(day.slice(8, 10))} ${monthOf(day)}`;
