/** From an exercise as written to an exercise with every default filled in. */
import { type KeyName } from '../../ladder/line.ts';
import { COMMON_TIME, type Meter, parseMeter } from '../../music/time/meter.ts';
import { PULSES, readArticulation } from '../../music/tongue/articulation.ts';
import { readKey, tonalityOf } from '../../music/pitch/keys.ts';
import { isPattern, notesPerBeatOf, readPattern } from '../../music/pattern/pattern.ts';
import { unitOf } from '../../music/pattern/pattern-bars.ts';
import type { Ratio } from '../../music/time/ratio.ts';
import { SCALES, type Scale, degreesIn, scaleNamed } from '../../music/pitch/scales.ts';
import { type Click, PLAIN_CLICK } from '../../music/sound/sound-commands.ts';
import type { DroneWanted, Exercise, Kind } from '../routine/exercise.ts';
import { multipleTonguingOf, tonguingStepNames } from '../rotation/multiple-tonguing-steps.ts';
import * as read from './value-words.ts';
import { bothPlaces, placeOf } from './place-on-instrument.ts';
import { PLAIN_ROTATION } from '../rotation/key-rotation.ts';
import { rotationOfWritten } from './rotation-defaults.ts';
import { type ReportSetting, type WrittenSettings, ladderOfWritten, saysItsRule } from './ladder-defaults.ts';
import type { WrittenExercise } from './routine-schema.ts';

export type { ReportSetting } from './ladder-defaults.ts';

/** `titleOf('long-tones')` is 'Long tones'. */
export const titleOf = (id: string): string => {
  const words = id.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

function clickOf(written: WrittenSettings['click']): Click {
  if (written === undefined) return PLAIN_CLICK;
  const chance = written['silent chance'];
  const levels = Object.entries(written.levels ?? {}).filter(([, gain]) => gain !== undefined);
  return {
    on: written.on ?? PLAIN_CLICK.on,
    subdivision: written.subdivision ?? PLAIN_CLICK.subdivision,
    feel: written.feel ?? PLAIN_CLICK.feel,
    levels: { ...PLAIN_CLICK.levels, ...Object.fromEntries(levels) },
    voice: written.voice ?? PLAIN_CLICK.voice,
    silentBars: written['silent bars'] ?? null,
    silentChance: chance === undefined ? null : { p: chance, seed: 1 },
  };
}

function meterOf(written: WrittenSettings, report: ReportSetting): Meter {
  if (written.meter === undefined) return COMMON_TIME;
  const meter = parseMeter(written.meter);
  if (typeof meter !== 'string') return meter;
  report('meter', meter);
  return COMMON_TIME;
}

/** What the pattern says of the rest of the exercise. */
interface FromPattern {
  readonly bars: number;
  readonly notesPerBeat: number;
}

/** Every trouble of the pattern is complained of at its place. */
function fromPattern(
  pattern: string,
  scale: Scale,
  said: WrittenSettings,
  meter: Meter,
  beat: Ratio,
  report: ReportSetting,
): FromPattern {
  const notesPerBeat = said.notes ?? notesPerBeatOf(pattern, meter, beat);
  const result = readPattern(pattern, { meter, unit: unitOf(beat, notesPerBeat), degrees: degreesIn(scale) });
  if (isPattern(result)) {
    if (said.bars !== undefined && said.bars !== result.bars)
      report('bars', `${result.bars}, as many as the pattern has, or leave it out`);
    return { bars: result.bars, notesPerBeat };
  }
  for (const { at, sentence } of result) report('pattern', sentence, { at: pattern.includes('\n') ? 1 : at });
  return { bars: 1, notesPerBeat };
}

function scaleOf(said: WrittenSettings, report: ReportSetting): Scale {
  const scale = scaleNamed(read.asList(said.scale ?? 'major').join(' '));
  if (typeof scale !== 'string') return scale;
  report('scale', scale, { at: 1 });
  return SCALES[0] as Scale;
}

function keysOf(said: WrittenSettings, scale: Scale, report: ReportSetting): readonly KeyName[] {
  const keys = said.keys === undefined ? ['C'] : read.readKeys(said.keys);
  const wrong = typeof keys === 'string' ? keys : firstUnfit(keys, scale);
  if (wrong !== null) report('keys', wrong, { at: 1 });
  return typeof keys === 'string' ? [] : keys;
}

/** A sentence about the first key that does not go with the scale. */
function firstUnfit(keys: readonly KeyName[], scale: Scale): string | null {
  for (const name of keys) {
    const key = readKey(name);
    const tonality = typeof key === 'string' ? key : tonalityOf(key, scale.name);
    if (typeof tonality === 'string') return tonality;
  }
  return null;
}

const usualArticulation = (kind: Kind): string => (kind === 'articulation' ? 'single' : 'slurred');

/** What is written of a drone, without what is left out; 'no' where it says that there is none. */
export function droneOf(written: NonNullable<WrittenSettings['drone']>): DroneWanted | 'no' {
  if (typeof written !== 'object') return read.isYes(written) ? {} : 'no';
  return Object.fromEntries(Object.entries(written).filter(([, value]) => value !== undefined));
}

function droneOfExercise({ drone: written }: WrittenSettings): Pick<Exercise, 'drone'> {
  const drone = written === undefined ? 'no' : droneOf(written);
  return drone === 'no' ? {} : { drone };
}

/** 'pulses 2 to 6' is a step for each; 'pulses' alone are the usual ones. Null for every other word. */
function pulseSteps(word: string): readonly string[] | null {
  if (word === 'pulses') return PULSES;
  const [, from, to] = /^pulses (\d{1,2}) to (\d{1,2})$/.exec(word) ?? [];
  if (from === undefined || to === undefined) return null;
  const [first, last] = [Number(from), Number(to)];
  const way = last < first ? -1 : 1;
  return Array.from({ length: Math.abs(last - first) + 1 }, (_, i) => `pulses ${first + i * way}`);
}

/** 'split' among them stands for the steps of multiple tonguing, 'pulses' for those of vibrato. */
function opened(written: readonly string[], notesPerBeat: number): readonly string[] {
  const others = written.filter((name) => name !== 'split' && pulseSteps(name) === null);
  const steps = tonguingStepNames(multipleTonguingOf({ articulations: others, notesPerBeat }));
  return written.flatMap((name) => (name === 'split' ? steps : (pulseSteps(name) ?? [name])));
}

/** A list that the author wrote comes in its order; only 'all major' and its like are drawn where nobody says more. */
const orderAsWritten = (said: WrittenSettings, turns: number): Pick<Exercise, 'rotation'> =>
  turns < 2 || `${said.keys}`.startsWith('all') ? {} : { rotation: PLAIN_ROTATION };

/** The ways of tonguing under their own names; the first that is none is complained of. */
function articulationsOf(
  said: WrittenSettings,
  kind: Kind,
  notesPerBeat: number,
  report: ReportSetting,
): readonly string[] {
  const written = opened(read.asList(said.articulations), notesPerBeat);
  if (written.length === 0) return [usualArticulation(kind)];
  const articulations = written.map(readArticulation);
  const wrong = articulations.find((one) => typeof one === 'string');
  if (wrong !== undefined) report('articulations', wrong, { at: 1 });
  return [...new Set(articulations.flatMap((one) => (typeof one === 'string' ? [] : [one.name])))];
}

/** What the exercise itself says goes before the file's defaults. */
function placeSaid(own: WrittenSettings, defaults: WrittenSettings, report: ReportSetting): Pick<Exercise, 'place'> {
  for (const said of [own, defaults]) {
    const both = bothPlaces(said);
    if (both !== null) report('from', both, { at: 1 });
  }
  const place = placeOf(own) ?? placeOf(defaults);
  return place === undefined ? {} : { place };
}

const eachBreathOf = (written: WrittenSettings['each breath']): Pick<Exercise, 'eachBreath'> =>
  written === undefined ? {} : { eachBreath: { out: written.out, wait: written.wait ?? 0, back: written.back } };

function extrasOf(written: WrittenSettings & Pick<WrittenExercise, 'retired'>): Partial<Exercise> {
  return {
    ...droneOfExercise(written),
    ...(written.rotate === undefined ? {} : { rotation: rotationOfWritten(written.rotate) }),
    ...(saysItsRule(written) ? { ownRule: true } : {}),
    ...(written.layers === undefined ? {} : { layers: written.layers }),
    ...(written.load === 'high' ? { highLoad: true } : {}),
    ...(read.isYes(written.flow) ? { flow: true as const } : {}),
    ...(written.breaths === undefined ? {} : { breaths: written.breaths, work: 'breaths' as const }),
    ...eachBreathOf(written['each breath']),
    ...(written.work === undefined ? {} : { work: written.work }),
    ...(written.spot === undefined ? {} : { spot: written.spot }),
    ...(written.minutes === undefined ? {} : { minutes: written.minutes }),
    ...(read.isYes(written.retired) ? { retired: true } : {}),
  };
}

/** An exercise with every default filled in; what does not fit together is complained of. */
export function exerciseOfWritten(
  { name, file }: Pick<Exercise, 'name' | 'file'>,
  written: WrittenExercise,
  defaults: WrittenSettings,
  report: ReportSetting,
): Exercise {
  const said = { ...defaults, ...written };
  const click = defaults.click || written.click ? { ...defaults.click, ...written.click } : undefined;
  const kind = said.kind ?? 'technique';
  const meter = meterOf(said, report);
  const beat = said.beat === undefined ? read.usualBeat(meter) : read.readNoteValue(said.beat);
  const pattern = written.pattern === undefined ? null : `${written.pattern}`;
  const scale = scaleOf(said, report);
  const own = pattern === null ? { bars: 1, notesPerBeat: 1 } : fromPattern(pattern, scale, said, meter, beat, report);
  const keys = keysOf(said, scale, report);
  const articulations = articulationsOf(said, kind, said.notes ?? own.notesPerBeat, report);
  return {
    id: written.history ?? name,
    name,
    file,
    ...(written.history === undefined ? {} : { history: written.history }),
    title: written.title ?? titleOf(name),
    kind,
    material: said.material ?? null,
    pattern,
    scale: scale.name,
    meter,
    beat,
    notesPerBeat: said.notes ?? own.notesPerBeat,
    ...(pattern === null && said.notes === undefined ? { notesUnknown: true } : {}),
    bars: said.bars ?? own.bars,
    // What flows leaves its breathing to the music, unless it says otherwise.
    breathBars: said.breath ?? (read.isYes(said.flow) ? 0 : 1),
    countInBars: said['count in'] ?? 1,
    noMark: said['no mark'] ?? 'wait',
    keys,
    articulations,
    ladder: ladderOfWritten(said, report),
    click: clickOf(click),
    cues: read.asList(said.cues),
    ...orderAsWritten(said, keys.length * articulations.length),
    ...extrasOf(said),
    ...placeSaid(written, defaults, report),
  };
}
