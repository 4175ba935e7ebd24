/**
 * The entries as a zod schema, for other programs and for people; `entry-check` says the same faster, and a
 * test holds the two together. Loaded only by the command that prints it.
 */
import { z } from 'zod';

const text = z.string().min(1);
const uuid = z.string().regex(/^[0-7][0-9a-f]{7}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/);
const tempo = z.number().gt(0).max(1000).describe('Beats per minute.');
const count = z.int().gt(0);
const cents = z.number().min(-1200).max(1200);
const seconds = z.number().min(0).lt(1e6);

const common = {
  v: z.literal(1).describe('Version of the shape.'),
  id: uuid.describe('UUID version 7: unique and time-ordered.'),
  at: z
    .string()
    .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/)
    .describe('Local date and time with offset.'),
  day: z
    .string()
    .regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/)
    .describe("The player's own day, which starts at four in the morning unless the settings say otherwise."),
};
const line = { exercise: text, articulation: text, key: text };

const planned = z.looseObject({
  part: text,
  block: text,
  length: seconds,
  before: seconds,
  exercise: text.nullable(),
  title: text.optional(),
});

export const entrySchema = z.discriminatedUnion('kind', [
  z.looseObject({
    ...common,
    ...line,
    kind: z.literal('mark'),
    mark: z.enum(['clean', 'tense', 'missed']),
    bpm: tempo,
    beat: z.string().regex(/^[1-9]\d*\/[1-9]\d*$/),
    notesPerBeat: z.number().gt(0).max(64),
    cleanUp: count,
    missedDown: count,
    tenseDown: count.optional(),
    next: tempo,
    sounded: text.optional(),
    by: z.enum(['player', 'rule']),
  }),
  z.looseObject({ ...common, ...line, kind: z.literal('tempo'), next: tempo }),
  z.looseObject({ ...common, kind: z.literal('undo'), of: uuid }),
  z.looseObject({
    ...common,
    kind: z.literal('block'),
    routine: text,
    part: text,
    block: text,
    event: z.enum(['started', 'going', 'left', 'done', 'skipped']),
    played: seconds,
    length: seconds,
    exercise: text.nullable(),
  }),
  z.looseObject({
    ...common,
    kind: z.literal('tension'),
    level: z.literal([0, 1, 2, 3, 4]),
    exercise: text.nullable(),
  }),
  z.looseObject({ ...common, kind: z.literal('note'), text }),
  z.looseObject({ ...common, kind: z.literal('draw'), pool: text, item: text, laid: z.literal(true).optional() }),
  z.looseObject({
    ...common,
    ...line,
    kind: z.literal('way'),
    way: text,
    wall: tempo,
    outcome: z.enum(['played', 'left']),
  }),
  z.looseObject({
    ...common,
    kind: z.literal('plan'),
    routine: text,
    items: z.array(planned),
  }),
  z.looseObject({
    ...common,
    kind: z.literal('list'),
    items: z.array(z.looseObject({ exercise: text.nullable(), title: text, length: seconds })),
  }),
  z.looseObject({ ...common, kind: z.literal('added'), routine: text, item: planned }),
  z.looseObject({
    ...common,
    ...line,
    kind: z.literal('heard'),
    bpm: tempo,
    instrument: text,
    tuning: z.enum(['just', 'equal']),
    a4: z.number().gt(0).max(20_000),
    notes: z.array(
      z.looseObject({
        name: text,
        written: count,
        notes: count,
        cents,
        beginning: cents,
        middle: cents,
        end: cents,
        spread: cents,
      }),
    ),
  }),
]);

/** JSON Schema, draft 2020-12, of one line of the journal. */
export const journalSchema = (): object => z.toJSONSchema(entrySchema, { target: 'draft-2020-12' });
