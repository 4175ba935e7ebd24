/** Measures pitch in a buffer; knows nothing of how the sound was made. */

const turn = (radians: number) => ({ c: Math.cos(radians), s: Math.sin(radians) });

/** Amplitude at a frequency by a Hann-windowed Fourier sum; its sines are turned on by a complex factor. */
export function amplitudeAt(samples: Float32Array, frequency: number, rate: number): number {
  const n = samples.length;
  const [tone, hann] = [turn((2 * Math.PI * frequency) / rate), turn((2 * Math.PI) / n)];
  let [re, im, a, b, wa, wb] = [0, 0, 1, 0, 1, 0];
  for (let i = 0; i < n; i++) {
    const x = (samples[i] as number) * (0.5 - 0.5 * wa);
    re += x * a;
    im += x * b;
    [a, b] = [a * tone.c - b * tone.s, a * tone.s + b * tone.c];
    [wa, wb] = [wa * hann.c - wb * hann.s, wa * hann.s + wb * hann.c];
  }
  return (4 * Math.hypot(re, im)) / n;
}

/** The frequency of the partial within seven cents of a guess, found by closing in on the peak. */
export function partialNear(samples: Float32Array, guess: number, rate: number): number {
  let [low, high] = [guess * 0.996, guess * 1.004];
  for (let i = 0; i < 18; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (amplitudeAt(samples, a, rate) < amplitudeAt(samples, b, rate)) low = a;
    else high = b;
  }
  return (low + high) / 2;
}
