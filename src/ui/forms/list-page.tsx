/** Today's list by hand, with all that can be put into it beside it, through Ink's own components. */
import { Box } from 'ink';
import { weekdayOf } from '../../common/days.ts';
import { wholeMinutes } from '../../common/time-words.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { handItems, isDone, minutesOpen } from '../../plan/today/hand-list.ts';
import type { PlanItem } from '../../plan/today/plan-items.ts';
import { type ListView, foundNow } from '../../practice/screens/day-list-keys.ts';
import { knownToday, listToday } from '../../practice/screens/today-keys.ts';
import type { Stand } from '../../practice/stand.ts';
import { signOf } from '../components/foot-line.ts';
import { type KeyRow, rowsFor } from '../keys.ts';
import { type PaintedLine, line, seg, widthOf } from '../paint.ts';
import type { Size } from '../whole-screen.ts';
import { Styled } from './styled.tsx';

interface Page {
  readonly stand: Stand;
  readonly view: ListView;
  readonly keys: readonly KeyRow[];
  readonly size: Size;
}

/** The rows in sight, the chosen one among them. */
function around<T>(
  rows: readonly T[],
  chosen: number,
  room: number,
): readonly { readonly row: T; readonly k: number }[] {
  const from = Math.max(0, Math.min(chosen - Math.floor(room / 2), rows.length - room));
  return rows.slice(from, from + room).map((row, i) => ({ row, k: from + i }));
}

const minutesText = (minutes: number): string => `${Math.round(minutes * 10) / 10}`.padStart(4);

function Things({
  items,
  view,
  stand,
  room,
}: Pick<Page, 'view' | 'stand'> & { items: readonly PlanItem[]; room: number }) {
  const before = knownToday(stand);
  const list = listToday(stand);
  if (items.length === 0) return <Styled line={line(seg('   Nothing yet.', 'dim'))} />;
  return around(items, view.row, room).map(({ row: item, k }) => {
    const isHere = view.doing !== 'find' && k === view.row;
    const sign = isHere ? '▶' : isDone(item, before) ? '●' : ' ';
    const tone = isHere ? 'now' : isDone(item, before) ? 'dim' : 'plain';
    const minutes = minutesText((list[k]?.length ?? 0) / 60);
    return <Styled key={item.block} line={line(seg(` ${sign}${minutes}  ${item.title}`, tone))} />;
  });
}

function Found({ exercises, view, room }: { exercises: readonly Exercise[]; view: ListView; room: number }) {
  if (exercises.length === 0) {
    const words = view.under
      ? 'Nothing is called that.'
      : 'Nothing is called that. Enter makes it an exercise of your own.';
    return <Styled line={line(seg(` ${words}`, 'dim'))} wrap="wrap" />;
  }
  return around(exercises, view.found, room).map(({ row: exercise, k }) => {
    const isHere = view.doing === 'find' && k === view.found;
    const material = exercise.material ? `  ${exercise.material}` : '';
    const title = seg(` ${isHere ? '▶' : ' '} ${exercise.title}`, isHere ? 'now' : 'plain');
    return <Styled key={exercise.id} line={line(title, seg(material, 'dim'))} />;
  });
}

function total({ stand }: Page, items: readonly PlanItem[]): PaintedLine {
  const open = Math.round(minutesOpen(items, knownToday(stand)));
  const there = stand.day.minutes;
  const words = open > there ? ` of the ${wholeMinutes(there)} there are` : ` of ${wholeMinutes(there)}`;
  return line(seg(` ${open}`, open > there ? 'missed' : 'now'), seg(words, 'dim'));
}

const hints = (...pairs: readonly (readonly [string, string])[]): PaintedLine =>
  line(...pairs.flatMap(([key, words]) => [seg(` ${key}`, 'key'), seg(` ${words} `, 'dim')]));

const TYPING: Readonly<Record<Exclude<ListView['doing'], 'order'>, PaintedLine>> = {
  find: hints(['letters', 'find'], ['↑ ↓', 'choose'], ['Enter', 'add'], ['Tab', 'order and play'], ['Esc', 'back']),
  name: hints(['Enter', 'keep it under this name'], ['Esc', 'back']),
};

const MORE = hints(['letters', 'find'], ['↑ ↓', 'choose'], ['Enter', 'put it at the end'], ['Esc', 'back']);

/** The keys of the list as they are set, on as many lines as they take; 't' says the day it goes to. */
function orderFeet({ stand, keys, size }: Page): readonly PaintedLine[] {
  const day = `as last ${weekdayOf(stand.known.today)}`;
  const rows = rowsFor(keys, 'list', []).filter(({ short }) => short !== '');
  const lines: PaintedLine[] = [];
  for (const row of rows) {
    const one = hints([signOf(row), row.action === 'as-last-week' ? day : row.short]);
    const last = lines.at(-1);
    if (last && widthOf(last) + widthOf(one) <= size.columns) lines[lines.length - 1] = [...last, ...one];
    else lines.push(one);
  }
  return lines;
}

function feet(page: Page): readonly PaintedLine[] {
  const { doing, under } = page.view;
  if (under) return [MORE];
  return doing === 'order' ? orderFeet(page) : [TYPING[doing]];
}

function entry({ view }: Page): PaintedLine {
  const sign = seg('▏', 'now');
  if (view.doing === 'name') return line(seg(' Name: ', 'strong'), seg(view.typed, 'now'), sign);
  if (view.doing === 'find') return line(seg(' Find: ', 'strong'), seg(view.typed, 'now'), sign);
  return line();
}

export function ListPage(page: Page) {
  const { stand, view, size } = page;
  const { columns, rows } = size;
  const items = handItems(listToday(stand), stand.known.exercises, knownToday(stand));
  const foot = feet(page);
  const room = Math.max(1, rows - 6 - foot.length);
  const half = view.under ? columns : Math.floor(columns / 2);
  const isNarrow = columns < 60;
  const head = view.under ? 'Something more for this sitting' : 'Today’s list';
  return (
    <Box flexDirection="column" width={columns} height={rows}>
      <Box justifyContent="space-between">
        <Styled line={line(seg(` ${head}`, 'strong'))} />
        {view.under ? null : <Styled line={total(page, items)} />}
      </Box>
      <Styled line={entry(page)} />
      <Box height={1} />
      <Box flexGrow={1}>
        {view.under || (isNarrow && view.doing === 'find') ? null : (
          <Box flexDirection="column" width={isNarrow ? columns : half}>
            <Things items={items} view={view} stand={stand} room={room} />
          </Box>
        )}
        {view.doing === 'name' || (isNarrow && view.doing !== 'find') ? null : (
          <Box flexDirection="column" width={isNarrow ? columns : columns - (view.under ? 0 : half)}>
            <Found exercises={foundNow(stand, view)} view={view} room={room} />
          </Box>
        )}
      </Box>
      <Styled line={line(seg(` ${stand.answer?.sentence ?? ''}`, 'strong'))} />
      {foot.map((one) => (
        <Styled key={one[0]?.text} line={one} />
      ))}
    </Box>
  );
}
