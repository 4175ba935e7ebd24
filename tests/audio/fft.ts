/** A radix-2 Fourier transform (Cooley and Tukey 1965, any handbook), and pitch and partials by it. */

interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** In place, decimated in time; the length is a power of two. */
function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j] as number, re[i] as number];
      [im[i], im[j]] = [im[j] as number, im[i] as number];
    }
  }
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    for (let k = 0; k < half; k++) {
      const [c, s] = [Math.cos((2 * Math.PI * k) / size), -Math.sin((2 * Math.PI * k) / size)];
      for (let a = k; a < n; a += size) {
        const b = a + half;
        const [x, y] = [re[b] as number, im[b] as number];
        const [r, i] = [x * c - y * s, x * s + y * c];
        [re[b], im[b]] = [(re[a] as number) - r, (im[a] as number) - i];
        [re[a], im[a]] = [(re[a] as number) + r, (im[a] as number) + i];
      }
    }
  }
}

/** Of `size` samples from `from` on, under a Hann window. */
export function spectrum(samples: Float32Array, from: number, size: number): Spectrum {
  const re = Float64Array.from({ length: size }, (_, i) => {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size);
    return (samples[from + i] as number) * window;
  });
  const im = new Float64Array(size);
  transform(re, im);
  return { re, im };
}

const level = ({ re, im }: Spectrum, k: number): number => Math.hypot(re[k] as number, im[k] as number);

/** The bin of the strongest partial. */
function strongestBin(of: Spectrum): number {
  let best = 1;
  for (let k = 2; k < of.re.length / 2; k++) if (level(of, k) > level(of, best)) best = k;
  return best;
}

const SIZE = 32_768;

/**
 * The frequency of the strongest partial of two windows' length of sound: by its bin, then by how far its phase turns
 * from one window to the next.
 */
export function strongestPartial(samples: Float32Array, rate: number): number {
  const [one, two] = [spectrum(samples, 0, SIZE), spectrum(samples, SIZE, SIZE)];
  const k = strongestBin(one);
  const phase = (of: Spectrum): number => Math.atan2(of.im[k] as number, of.re[k] as number);
  // A whole window moves bin k by k turns: what is left is how far the partial lies from the bin's middle.
  const turns = (phase(two) - phase(one)) / (2 * Math.PI);
  return ((k + turns - Math.round(turns)) * rate) / SIZE;
}

export const LONG_ENOUGH = 2 * SIZE;
