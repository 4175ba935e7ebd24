/** The few figures that many readings come to. */

/** Where `share` (0 to 1) of the values lie below, between neighbours in proportion; NaN of none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(place)] ?? NaN, sorted[Math.ceil(place)] ?? NaN];
  return low + (high - low) * (place - Math.floor(place));
}

/** `median([1, 9, 2])` is 2. */
export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** How wide the middle half of the values is. */
export const middleHalf = (values: readonly number[]): number => quantile(values, 0.75) - quantile(values, 0.25);

export const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/** Standard deviation of the values themselves (divided by their number); NaN of none. */
export function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((x) => (x - middle) ** 2)));
}

/** Least squares: y gains so much for each unit of x; 0 where all x are one. */
export function slopeOf(points: readonly (readonly [x: number, y: number])[]): number {
  const [mx, my] = [mean(points.map(([x]) => x)), mean(points.map(([, y]) => y))];
  const across = points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0);
  const along = points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
  return along === 0 ? 0 : across / along;
}
