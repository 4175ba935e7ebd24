/** The form of an exercise of the player's own, with the notes of its pattern written out below as it is typed. */
import { Box } from 'ink';
import type { Lettering } from '../../music/page/strip.ts';
import { type FormMistake, mistakesIn } from '../../plan/own/form-mistakes.ts';
import { exerciseOfForm } from '../../plan/own/form-written.ts';
import { CHOICES, type Field, type OwnForm } from '../../plan/own/own-form.ts';
import type { FormView } from '../../practice/screens/own-form-keys.ts';
import type { Stand } from '../../practice/stand.ts';
import { type PaintedLine, line, seg } from '../paint.ts';
import { quietStrip } from '../practice/practice-strip.ts';
import type { Size } from '../whole-screen.ts';
import { ANSWERS, HINTS, LABELS, LEAVE, ROWS, usualWords } from './form-words.ts';
import { Styled } from './styled.tsx';
import { TextField } from './text-field.tsx';

interface Page {
  readonly stand: Stand;
  readonly view: FormView;
  readonly size: Size;
  readonly lettering: Lettering;
}

/** The first key and the first articulation, on the player's instrument. */
function notesOf(stand: Stand, fields: OwnForm, columns: number, lettering: Lettering): readonly PaintedLine[] {
  const exercise = exerciseOfForm(fields);
  const [key = 'C'] = exercise.keys;
  const [articulation = 'slurred'] = exercise.articulations;
  const { drill } = stand.known.prepare(exercise, { exercise: exercise.id, key, articulation });
  return quietStrip(drill, columns - 4, lettering);
}

const QUESTION = line(
  seg(` ${LEAVE}`, 'strong'),
  ...ANSWERS.flatMap(([key, words]) => [seg('  '), seg(key, 'key'), seg(` ${words}`, 'dim')]),
);

const FOOT = line(
  seg(' Enter', 'key'),
  seg(' keep it  ', 'dim'),
  seg('Tab ↑ ↓', 'key'),
  seg(' another field  ', 'dim'),
  seg('← →', 'key'),
  seg(' choose  ', 'dim'),
  seg('Esc', 'key'),
  seg(' leave', 'dim'),
);

/** What to say: the answer to the last key, else what is wrong here, else what may be typed here. */
function said({ stand, view }: Page, mistakes: readonly FormMistake[]): PaintedLine {
  if (stand.answer) return line(seg(` ${stand.answer.sentence}`, 'strong'));
  const here = mistakes.find(({ field }) => field === view.at && view.fields[field] !== '');
  const wrong = here ?? mistakes.find(({ field }) => view.fields[field] !== '');
  if (!wrong) return line(seg(` ${HINTS[view.at]}`, 'dim'));
  const place = wrong.at === null ? '' : `, at ${wrong.at}`;
  return line(seg(` ${LABELS[wrong.field]}${place}: ${wrong.sentence}`, 'missed'));
}

function wrongIn(mistakes: readonly FormMistake[], field: Field, text: string): number | null {
  const found = mistakes.find((one) => one.field === field);
  return !found || text === '' ? null : (found.at ?? 0);
}

/** As many rows as there is room for, the one that the cursor is in among them. */
function rowsShown(at: Field, room: number): readonly (readonly Field[])[] {
  const here = ROWS.findIndex((row) => row.includes(at));
  const from = Math.max(0, Math.min(here - Math.floor(room / 2), ROWS.length - room));
  return ROWS.slice(from, from + Math.max(1, room));
}

export function OwnFormPage(page: Page) {
  const { stand, view, size, lettering } = page;
  const { columns, rows } = size;
  const mistakes = mistakesIn(view.fields);
  const usual = usualWords(view.fields);
  const notes = mistakes.some(({ field }) => field !== 'title') ? [] : notesOf(stand, view.fields, columns, lettering);
  const strip = rows >= ROWS.length + 6 + notes.length ? notes : [];
  const head = view.of ? 'Your exercise' : 'A new exercise of your own';
  return (
    <Box flexDirection="column" width={columns} height={rows}>
      <Styled line={line(seg(` ${head}`, 'strong'))} />
      {rows > 16 ? <Box height={1} /> : null}
      {rowsShown(view.at, rows - 4 - (rows > 16 ? 1 : 0)).map((fields) => (
        <Box key={fields[0]}>
          {fields.map((field) => (
            <TextField
              key={field}
              label={LABELS[field]}
              text={view.fields[field]}
              usual={usual[field]}
              width={fields.length === 1 ? columns : Math.floor(columns / 2)}
              cursor={field === view.at ? (field in CHOICES ? 0 : view.cursor) : null}
              wrong={wrongIn(mistakes, field, view.fields[field])}
            />
          ))}
        </Box>
      ))}
      <Box flexDirection="column" flexGrow={1} paddingLeft={3}>
        {strip.map((one, k) => (
          // The rows of a picture have no names of their own.
          // oxlint-disable-next-line react/no-array-index-key
          <Styled key={k} line={one} />
        ))}
      </Box>
      <Styled line={said(page, mistakes)} wrap="wrap" />
      <Styled line={view.asks ? QUESTION : FOOT} wrap={view.asks ? 'wrap' : 'truncate'} />
    </Box>
  );
}
