/** From an exercise as written to an exercise with every default filled in. */
import { type KeyName } from '../../ladder/line.ts';
import { checkRule } from '../../ladder/rule/rule-check.ts';
import { DEFAULT_RULE, type LadderRule } from '../../ladder/rule/ladder-rule.ts';
import { COMMON_TIME, type Meter, parseMeter } from '../../music/time/meter.ts';
import { PULSES, readArticulation } from '../../music/tongue/articulation.ts';
import { readKey, tonalityOf } from '../../music/pitch/keys.ts';
import { isPattern, notesPerBeatOf, readPattern } from '../../music/pattern/pattern.ts';
import { unitOf } from '../../music/pattern/pattern-bars.ts';
import type { Ratio } from '../../music/time/ratio.ts';
import { SCALES, type Scale, degreesIn, scaleNamed } from '../../music/pitch/scales.ts';
import { type Click, PLAIN_CLICK } from '../../music/sound/sound-commands.ts';
import type { Exercise, Kind } from '../routine/exercise.ts';
import { multipleTonguingOf, tonguingStepNames } from '../rotation/multiple-tonguing-steps.ts';
import * as read from './value-words.ts';
import { bothPlaces, placeOf } from './place-on-instrument.ts';
import { rotationOfWritten } from './rotation-defaults.ts';
import type { WrittenExercise } from './routine-schema.ts';
import { BOUNDS } from './written-limits.ts';

/**
 * Takes the name of a setting and what would be right, or a whole sentence about its text from a column (from 1) on.
 */
export type ReportSetting = (setting: string, right: string, sentence?: { readonly at: number }) => void;

type WrittenSettings = Omit<WrittenExercise, 'title' | 'pattern' | 'retired'>;

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

function endsOf(written: WrittenSettings): { floor: number; top: number; start: number; target: number } {
  const { start, target } = read.readTempo(written.tempo ?? `${DEFAULT_RULE.start} -> ${DEFAULT_RULE.target}`);
  const aim = target ?? start;
  const usual = { floor: Math.min(DEFAULT_RULE.floor, start), top: Math.max(DEFAULT_RULE.top, aim) };
  return { ...usual, ...(written.ladder === undefined ? {} : read.readLadderEnds(written.ladder)), start, target: aim };
}

const withinTen400 = (bpm: number): boolean => bpm >= BOUNDS.tempo[0] && bpm <= BOUNDS.tempo[1];

/** The ladder's own ends reach as far as the tempos, so a wrong tempo is one trouble and not two. */
function checkEnds(
  { floor, top, start, target }: ReturnType<typeof endsOf>,
  isLadderSaid: boolean,
  report: ReportSetting,
): void {
  const isTempoWrong = ![start, target].every(withinTen400);
  if (isTempoWrong) report('tempo', 'tempos from 10 to 400 beats per minute');
  if (isTempoWrong && !isLadderSaid) return;
  if (!isTempoWrong && target < start) report('tempo', 'a start that is not above the target');
  if (![floor, top].every(withinTen400) || floor >= top) {
    report('ladder', 'a lower and then a higher tempo, both from 10 to 400');
  } else if (!isTempoWrong && (start < floor || target > top))
    report('tempo', `tempos on the ladder, from ${floor} to ${top}`);
}

function ruleOf(written: WrittenSettings, outer: ReportSetting): LadderRule {
  let isReported = false;
  const report: ReportSetting = (...said) => {
    isReported = true;
    outer(...said);
  };
  const ends = endsOf(written);
  checkEnds(ends, written.ladder !== undefined, report);
  const step = written.step === undefined ? DEFAULT_RULE.step : read.readStep(written.step);
  if (step.by === 'ratio' && !(step.percent >= 0.1 && step.percent <= 50)) {
    report('step', 'a percentage from 0.1% to 50%');
  }
  const slow = written.slow === undefined ? DEFAULT_RULE.slowShare : read.readPercent(written.slow) / 100;
  if (!(slow >= 0.2 && slow <= 0.95)) report('slow', 'a percentage from 20% to 95%');
  const rule: LadderRule = {
    cleanUp: written.up ?? DEFAULT_RULE.cleanUp,
    missedDown: written.down ?? DEFAULT_RULE.missedDown,
    rungsUp: written['rungs up'] ?? DEFAULT_RULE.rungsUp,
    rungsDown: written['rungs down'] ?? DEFAULT_RULE.rungsDown,
    step,
    ...ends,
    fractions: read.isYes(written.fractions),
    order: written.order ?? DEFAULT_RULE.order,
    slowShare: slow,
  };
  // What each setting may be was checked above; this is what they may not be together.
  if (!isReported)
    checkRule(rule).forEach((sentence) => report('step' in written ? 'step' : 'ladder', sentence, { at: 1 }));
  return rule;
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
  const scale = scaleNamed(said.scale ?? 'major');
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

function droneOf(written: WrittenSettings['drone']): Pick<Exercise, 'drone'> {
  if (written === undefined || written === false || written === 'no') return {};
  const { voices, tuning } = typeof written === 'object' ? written : {};
  return { drone: { voices: voices ?? ['tonic', 'fifth'], tuning: tuning ?? 'just' } };
}

/** 'split' among them stands for the steps of multiple tonguing, 'pulses' for those of vibrato. */
function opened(written: readonly string[], notesPerBeat: number): readonly string[] {
  const others = written.filter((name) => name !== 'split' && name !== 'pulses');
  const steps = tonguingStepNames(multipleTonguingOf({ articulations: others, notesPerBeat }));
  return written.flatMap((name) => (name === 'split' ? steps : name === 'pulses' ? PULSES : [name]));
}

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

function extrasOf(written: WrittenSettings & Pick<WrittenExercise, 'retired'>): Partial<Exercise> {
  return {
    ...droneOf(written.drone),
    ...(written.rotate === undefined ? {} : { rotation: rotationOfWritten(written.rotate) }),
    ...(written.load === 'high' ? { highLoad: true } : {}),
    ...(written.breaths === undefined ? {} : { breaths: written.breaths, work: 'breaths' as const }),
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
    bars: said.bars ?? own.bars,
    breathBars: said.breath ?? 1,
    countInBars: said['count in'] ?? 1,
    noMark: said['no mark'] ?? 'wait',
    keys: keysOf(said, scale, report),
    articulations: articulationsOf(said, kind, said.notes ?? own.notesPerBeat, report),
    ladder: ruleOf(said, report),
    click: clickOf(click),
    cues: read.asList(said.cues),
    ...extrasOf(said),
    ...placeSaid(written, defaults, report),
  };
}
