/** The grid as a screen of its own, to choose a cell of while everything sounds on. */
import { withSigns } from '../../music/pitch/note-names.ts';
import { messageNow } from '../../practice/messages.ts';
import { runViewNow } from '../../practice/sitting/run-now.ts';
import { turnGrid } from '../components/turn-grid.ts';
import { BLANK, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { type DrawScreen, keyOfCanvas } from '../screens/screen.ts';
import { sittingLine, sittingStrip } from '../screens/sitting-lines.ts';
import { gridView } from './grid-of-line.ts';
import { stateLine } from './practice-state.ts';

export const gridScreen: DrawScreen<'grid'> = (stand, canvas) => {
  const { columns, rows, foot } = canvas;
  const { work, at } = stand.view;
  const { practice } = work;
  const keyOf = keyOfCanvas(canvas);
  const view = gridView(stand, work, at);
  const run = runViewNow(stand);
  const chosen = view.finger ? `${withSigns(view.finger.key)}, ${view.finger.articulation}` : '';
  const head = [
    fit(line(seg(` ${practice.exercise.title}`, 'strong'), seg('  which cell?')), columns),
    fit(line(seg(` ▶ ${chosen} `, 'now')), columns),
    BLANK,
  ];
  const end = [
    line(seg(` ${stateLine(practice, keyOf)}`, 'strong')),
    ...(run ? [sittingLine(run, columns, keyOf), sittingStrip(run, columns)] : []),
    ...wrapped(messageNow(stand)?.sentence ?? '', 'strong', columns),
    foot,
  ];
  const room = rows - head.length - end.length;
  const body = toHeight(turnGrid(view, columns, room), room);
  return toHeight([...head, ...body, ...end], rows).map((painted) => fit(painted, columns));
};
