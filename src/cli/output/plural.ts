/** `plural(2, 'entry', 'entries')` is '2 entries'. */
export const plural = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
