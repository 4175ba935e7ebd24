/**
 * Makes the sounds in this folder: `npm run sounds`. Each is a handful of damped partials and a
 * burst of noise; it starts at its first frame with its attack, so that a beat is where it is said to be.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { soundsFolder } from '../src/audio/package-folder.ts';
import { encodeWav } from '../src/audio/file/wav.ts';

const RATE = 48_000;
const PEAK = 0.9;

interface Partial_ {
  readonly hertz: number;
  readonly gain: number;
  /** Seconds until it has fallen to 1/e. */
  readonly decay: number;
}

interface Recipe {
  readonly length: number;
  readonly partials: readonly Partial_[];
  /** Gain and decay of the attack's noise. */
  readonly noise: readonly [number, number];
  /** Seconds over which it swells; 0 is a strike. */
  readonly swell?: number;
}

const partial = (hertz: number, gain: number, decay: number): Partial_ => ({ hertz, gain, decay });

const RECIPES: Readonly<Record<string, Recipe>> = {
  'wood-high': { length: 0.07, partials: [partial(1661, 1, 0.012), partial(3910, 0.5, 0.005)], noise: [0.5, 0.0015] },
  'wood-low': { length: 0.07, partials: [partial(1245, 1, 0.013), partial(2930, 0.45, 0.005)], noise: [0.4, 0.0015] },
  'stick-high': { length: 0.04, partials: [partial(3150, 0.8, 0.005), partial(5330, 0.6, 0.003)], noise: [1, 0.002] },
  'stick-low': { length: 0.04, partials: [partial(2360, 0.8, 0.005), partial(4020, 0.5, 0.003)], noise: [0.9, 0.002] },
  'bell-high': {
    length: 0.14,
    partials: [partial(4699, 1, 0.035), partial(7650, 0.6, 0.02), partial(10400, 0.4, 0.01)],
    noise: [0.4, 0.001],
  },
  'bell-low': {
    length: 0.12,
    partials: [partial(3520, 1, 0.03), partial(5720, 0.6, 0.018), partial(7870, 0.4, 0.01)],
    noise: [0.4, 0.001],
  },
  'drum-high': { length: 0.12, partials: [partial(392, 1, 0.03), partial(640, 0.5, 0.02)], noise: [0.8, 0.004] },
  'drum-low': { length: 0.12, partials: [partial(262, 1, 0.032), partial(431, 0.5, 0.02)], noise: [0.7, 0.004] },
  'tone-high': { length: 0.06, partials: [partial(880, 1, 0.018), partial(1760, 0.3, 0.012)], noise: [0, 1] },
  'tone-low': { length: 0.06, partials: [partial(587, 1, 0.02), partial(1175, 0.3, 0.014)], noise: [0, 1] },
  chime: {
    length: 1.8,
    partials: [partial(523.25, 1, 0.5), partial(1046.5, 0.5, 0.35), partial(1568, 0.25, 0.25), partial(784, 0.6, 0.45)],
    noise: [0, 1],
    swell: 0.02,
  },
};

/** A row of numbers from -1 to 1 that is the same each time. */
function noiseSource(): () => number {
  let state = 0x2f6e2b1;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}

function render(recipe: Recipe): Float32Array {
  const noise = noiseSource();
  const frames = Math.round(recipe.length * RATE);
  const raw = Float32Array.from({ length: frames }, (_, i) => {
    const t = i / RATE;
    // Cosines: a struck body is at its furthest when it is let go, which puts the attack into the first frame.
    const body = recipe.partials.reduce(
      (sum, p) => sum + p.gain * Math.exp(-t / p.decay) * Math.cos(2 * Math.PI * p.hertz * t),
      0,
    );
    const swell = recipe.swell ? Math.min(1, t / recipe.swell) : 1;
    const tail = Math.min(1, (frames - i) / (0.1 * frames));
    return (body + recipe.noise[0] * Math.exp(-t / recipe.noise[1]) * noise()) * swell * tail;
  });
  const peak = raw.reduce((m, x) => Math.max(m, Math.abs(x)), 0);
  return raw.map((x) => (x * PEAK) / peak);
}

for (const [name, recipe] of Object.entries(RECIPES)) {
  writeFileSync(join(soundsFolder(), `${name}.wav`), encodeWav({ rate: RATE, samples: render(recipe) }, '16'));
}
