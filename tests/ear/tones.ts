/** Tones of which everything is known: made here, by nothing of the program. */

/** A seeded generator of even chance (numerical recipes' constants), and one of the normal distribution. */
export function chance(seed: number): { readonly even: () => number; readonly normal: () => number } {
  let state = seed >>> 0;
  const even = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  return { even, normal };
}

export interface Tone {
  readonly hertz: number;
  readonly seconds: number;
  /** Amplitude of each harmonic, the fundamental first. */
  readonly harmonics?: readonly number[];
  /** Cents either way, so many times a second. */
  readonly vibrato?: { readonly rate: number; readonly cents: number };
  /** Cents from beginning to end. */
  readonly drift?: number;
  readonly gain?: number;
}

export const RATE = 48_000;

/** A tone by the phase that its own frequency sums up to; ten milliseconds of rise and of fall. */
export function tone(
  { hertz, seconds, harmonics = [1], vibrato, drift = 0, gain = 0.2 }: Tone,
  rate = RATE,
): Float32Array {
  const out = new Float32Array(Math.round(seconds * rate));
  let phase = 0;
  for (let i = 0; i < out.length; i++) {
    const t = i / rate;
    const swing = vibrato ? vibrato.cents * Math.sin(2 * Math.PI * vibrato.rate * t) : 0;
    const now = hertz * 2 ** ((swing + (drift * t) / seconds) / 1200);
    phase += now / rate;
    const edge = Math.min(1, t / 0.01, (seconds - t) / 0.01);
    let x = 0;
    harmonics.forEach((a, h) => (x += (h + 1) * now < rate / 2 ? a * Math.sin(2 * Math.PI * (h + 1) * phase + h) : 0));
    out[i] = gain * edge * x;
  }
  return out;
}

export const silence = (seconds: number, rate = RATE): Float32Array => new Float32Array(Math.round(seconds * rate));

export function after(...parts: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** White noise so many decibels below the sound's own mean power. */
export function withNoise(sound: Float32Array, below: number, seed: number): Float32Array {
  const power = sound.reduce((sum, x) => sum + x * x, 0) / sound.length;
  const size = Math.sqrt(power * 10 ** (-below / 10));
  const { normal } = chance(seed);
  return sound.map((x) => x + size * normal());
}
