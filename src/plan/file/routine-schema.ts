/**
 * A routine file as it is written by hand: what may stand where. Defaults are filled in by
 * `exercise-defaults` and `block-defaults`; the JSON Schema in `shared/` is made from this file.
 */
import { z } from 'zod';
import { DRONE_OCTAVES } from '../../music/pitch/drone-place.ts';
import { DRONE_TIMBRES } from '../../music/sound/sound-commands.ts';
import { KINDS } from '../routine/exercise.ts';
import { LEVELS } from '../routine/routine.ts';
import { KEY_ORDERS } from '../rotation/key-order.ts';
import { ARTICULATION_TURNS, KEY_CHANGES } from '../rotation/key-rotation.ts';
import { REGISTERS } from '../../music/pitch/registers.ts';
import * as part from './schema-values.ts';
import { BOUNDS, LONGEST } from './written-limits.ts';

const clickLevels = z.strictObject({
  bar: part.between(0, 1).optional(),
  group: part.between(0, 1).optional(),
  beat: part.between(0, 1).optional(),
  subdivision: part.between(0, 1).optional(),
});

const click = z
  .strictObject({
    on: z
      .union(
        [z.enum(['beats', 'off-beats', 'first']), part.some(part.whole(1, 32), 'beat')],
        'beats, off-beats, first, or a list of beats like [2, 4]',
      )
      .optional(),
    subdivision: part.whole(1, 8).optional(),
    feel: part.oneOf(['even', 'dotted', 'swung']).optional(),
    voice: part.text(200).optional(),
    levels: clickLevels.optional(),
    'silent bars': z.strictObject({ play: part.whole(1, 64), silent: part.whole(1, 64) }).optional(),
    'silent chance': part.between(0, 1).optional(),
  })
  .describe('How the click is struck.');

const voices = ['tonic', 'octave', 'fifth', 'major-third', 'minor-third'] as const;

const drone = z
  .strictObject({
    voices: part.some(part.oneOf(voices), 'voice').optional(),
    tuning: part.oneOf(['equal', 'just']).optional(),
    timbre: part.oneOf(DRONE_TIMBRES).optional(),
    octave: part
      .oneOf(DRONE_OCTAVES)
      .optional()
      .describe('Below the notes that are played or with the lowest, among them, or above them.'),
  })
  .describe('Sounds from the start of the exercise; it can be switched on anywhere else by hand.');

const droneOrNot = z.union([part.yesNo, drone], 'yes, no, or voices, tuning, timbre and octave');

const rotation = z
  .strictObject({
    order: part.oneOf(KEY_ORDERS).optional(),
    change: part.oneOf(KEY_CHANGES).optional().describe('After what the key changes.'),
    ladder: part.oneOf(['each key', 'shared']).optional(),
    weak: part.whole(1, 5).optional().describe('How many times as often the weak keys come.'),
    edge: part.whole(1, 5).optional().describe('How many times as often the keys at the edges of the range come.'),
    fingerings: part.yesNo.optional().describe('Each key with ordinary and then with alternate fingerings.'),
    repetitions: part.whole(1, 20).optional().describe('Repetitions in a row before the next one comes.'),
    ends: part.ends.optional().describe('The first and last keys of the order more often, once through between.'),
    week: part.whole(1, 24).optional().describe("So many keys each week: this week's three."),
    articulations: part
      .oneOf(ARTICULATION_TURNS)
      .optional()
      .describe('In turn: in each key one after the other at one speed, and a missed one again.'),
  })
  .describe('How the keys and the ways of tonguing come round.');

export const ROTATION_KEYS = Object.keys(rotation.shape);

const eachBreath = z
  .strictObject({
    out: part.between(1, 60, 'a number of seconds'),
    wait: part.between(0, 30, 'a number of seconds').optional(),
    back: part.between(1, 60, 'a number of seconds'),
  })
  .describe('Seconds of each breath, shown as a shape: empty out, wait, let it come back.');

/** What may be said of an exercise, and of all of them under `defaults`. */
const exerciseSettings = {
  kind: part.oneOf(KINDS).optional(),
  material: part.text(LONGEST.material).optional().describe('What to get on the stand.'),
  spot: part.text(LONGEST.spot).optional().describe("The hard spot in the player's own words."),
  scale: part.scale.optional().describe('Its name, or rising degrees of your own like [1, 2, b3, 5, 6].'),
  meter: part.meter.optional(),
  beat: part.noteValue.optional().describe("Note value of the tempo's beat."),
  notes: part
    .between(...BOUNDS.notes)
    .optional()
    .describe('Notes on each beat in the fast passages.'),
  bars: part
    .whole(...BOUNDS.bars)
    .optional()
    .describe('Bars of one repetition.'),
  breath: part.halves(16).optional().describe('Bars to breathe in after it; the mark is due there. 0.5 is half a bar.'),
  'count in': part.halves(8).optional().describe('Bars; 0 counts in only at the start, for a new tempo or key.'),
  flow: part.yesNo.optional().describe('Run on without a count-in while tempo and key stay.'),
  'no mark': part.oneOf(['wait', 'repeat', 'clean']).optional().describe('What happens when no mark comes.'),
  keys: part.keys.optional(),
  articulations: part.articulations.optional(),
  register: part.oneOf(REGISTERS).optional().describe('Where on the instrument it belongs.'),
  from: part.writtenNote.optional().describe("Or: its first key's first note, as it is written."),
  rotate: z
    .union([part.oneOf(KEY_ORDERS), rotation], `one of ${KEY_ORDERS.join(', ')}, or ${ROTATION_KEYS.join(', ')}`)
    .optional(),
  tempo: part.tempo.optional(),
  ladder: part.ladderEnds.optional(),
  step: part.step.optional(),
  rule: part.ladderRule.optional().describe('What moves the ladder: counting marks in a row, or a share to aim at.'),
  up: part.whole(1, 20).optional().describe('Up after so many clean in a row.'),
  down: part.whole(1, 20).optional().describe('Down after so many missed in a row.'),
  'tense down': z
    .union([part.whole(1, 20, ', or never'), part.oneOf(['never'])], 'a whole number from 1 to 20, or never')
    .optional()
    .describe('Down one rung after so many tense in a row.'),
  'rungs up': part.whole(1, 10).optional(),
  'rungs down': part.whole(1, 10).optional(),
  fractions: part.yesNo.optional(),
  order: part.oneOf(['climb', 'alternate']).optional(),
  slow: part.percent.optional().describe("Tempo of the slow repetitions in the order 'alternate'."),
  click: click.optional(),
  drone: droneOrNot.optional(),
  cues: part.cues.optional().describe('Short reminders about ease.'),
  layers: part.layers.optional().describe('What each repetition is for, one after the other, shown large before it.'),
  work: part.oneOf(['ladder', 'breaths', 'clock']).optional().describe('What moves the work on.'),
  breaths: part.whole(...BOUNDS.breaths).optional(),
  'each breath': eachBreath.optional(),
  minutes: part.minutes.optional().describe("What it is given in a day's list by hand."),
  load: part.oneOf(['ordinary', 'high']).optional().describe('High: minutes of it together are limited.'),
};

export const Defaults = z.strictObject(exerciseSettings);

export const WrittenExercise = z.strictObject({
  title: part.text(LONGEST.title).optional(),
  pattern: z
    .union([z.number(), part.lines(LONGEST.pattern)], 'scale degrees like 1 2 3 4 5 4 3 2 | 1')
    .optional()
    .describe('Scale degrees, in quotes if it holds a #.'),
  history: part.history.optional().describe('Under which name its marks are kept.'),
  retired: part.yesNo.optional().describe('No longer offered; what was played of it stays.'),
  ...exerciseSettings,
});

const blockSettings = {
  title: part.text(80).optional(),
  minutes: part.minutes.optional(),
  least: part.minutes.optional().describe('What it may be cut down to.'),
  every: part.days.optional().describe('Due again after so long.'),
  want: part.whole(1, 5).optional().describe('How much it is wanted, 3 is ordinary.'),
  always: part.yesNo.optional(),
  'warm up': part.yesNo.optional(),
  load: part.oneOf(['ordinary', 'high']).optional(),
  'at end': part.oneOf(['go on', 'wait']).optional(),
  kind: part.oneOf(KINDS).optional(),
  cues: part.cues.optional(),
  material: part.text(200).optional(),
  keys: part.keys.optional(),
  articulations: part.articulations.optional(),
  register: part.oneOf(REGISTERS).optional().describe('Where on the instrument it is played in this block.'),
  from: part.writtenNote.optional(),
  breaths: part.whole(1, 500).optional(),
  drone: droneOrNot.optional().describe('In place of what the exercise says of its drone.'),
};

const FullBlock = z.strictObject({
  play: part.exerciseName.optional().describe('An exercise, or one of another file with its name.'),
  draw: part.id.optional().describe('A pool to draw from.'),
  do: part.text(80).optional().describe('Something without notes.'),
  rest: part.minutes.optional().describe('Minutes off the instrument.'),
  ...blockSettings,
});

export const BLOCK_KEYS = Object.keys(FullBlock.shape);
const shortKey = new RegExp(`^(?!(${BLOCK_KEYS.join('|')})$)([\\p{L}\\p{N}._-]+/)?[a-z0-9]+(-[a-z0-9]+)*$`, 'u');

/** `- long-tones: 5`: five minutes of that exercise, or out of that pool. */
const ShortBlock = z
  .record(z.string().regex(shortKey, 'the name of an exercise or a pool'), part.minutes)
  .refine((pair) => Object.keys(pair).length === 1, 'one name with its minutes')
  .meta({ maxProperties: 1, minProperties: 1 });

export const WrittenBlock = z.union([FullBlock, ShortBlock], 'a block like long-tones: 5');

export const WrittenPart = z.strictObject({
  part: part.text(80),
  'warm up': part.yesNo.optional(),
  blocks: z.array(WrittenBlock, 'a list of blocks').min(1, 'at least one block').max(500, 'at most 500 blocks'),
});

export const WrittenPool = z.union(
  [
    part.some(part.id, 'exercise'),
    z.strictObject({
      title: part.text(80).optional(),
      every: part.days.optional(),
      items: part.some(part.id, 'exercise'),
    }),
  ],
  'a list of exercises, or every and items',
);

const FOR_WANTED = 'brass, reeds, flutes, or instruments by name';

export const WrittenRoutine = z
  .strictObject({
    routine: part.text(80).optional().describe('The title. A file that is only included needs none.'),
    about: part.lines(1000).optional(),
    instrument: part.text(60).optional(),
    include: z
      .union(
        [part.fileName, z.array(part.fileName)],
        'the name of a .yaml file in the same folder, or a list of such names',
      )
      .optional()
      .describe('Files of the same folder whose exercises and pools may be used here.'),
    defaults: Defaults.optional().describe('Said once for all exercises of this file.'),
    exercises: z.record(part.id, WrittenExercise, 'exercises by their short names').optional(),
    pools: z.record(part.id, WrittenPool, 'pools by their short names').optional(),
    parts: z.array(WrittenPart, 'a list of parts').min(1, 'at least one part').max(50, 'at most 50 parts').optional(),
    breaks: part.breaks.optional(),
    limits: z
      .strictObject({
        'same kind': part.whole(1, 20).optional().describe('At most so many blocks of one kind in a row.'),
        'high load': part.minutes.optional().describe('At most so many high-load minutes together.'),
      })
      .optional(),
    order: part.oneOf(['blocked', 'interleaved']).optional(),
    for: z
      .union([part.text(60), z.array(part.text(60)).min(1).max(40)], FOR_WANTED)
      .optional()
      .describe('Who else it is for: brass, reeds, flutes, or instruments by name.'),
    level: part.oneOf(LEVELS).optional().describe('How long its player has been playing.'),
  })
  .describe('A practice routine for a wind player.');

export type WrittenRoutine = z.infer<typeof WrittenRoutine>;
export type WrittenExercise = z.infer<typeof WrittenExercise>;
export type WrittenBlock = z.infer<typeof WrittenBlock>;
export type WrittenFullBlock = z.infer<typeof FullBlock>;
export type WrittenPart = z.infer<typeof WrittenPart>;
export type WrittenPlace = Pick<WrittenExercise, 'register' | 'from'>;
export type WrittenPool = z.infer<typeof WrittenPool>;

/** JSON Schema 2020-12 of a routine file. */
export const routineJsonSchema = (): object => ({
  ...z.toJSONSchema(WrittenRoutine, { io: 'input', target: 'draft-2020-12' }),
  title: 'standside routine',
});
