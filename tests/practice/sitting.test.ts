import type { DayEntry } from '../../src/diary/entry.ts';
import { describe, expect, it } from 'vitest';
import { messageNow } from '../../src/practice/messages.ts';
import { plainText } from '../../src/ui/paint.ts';
import { drawScreen } from '../../src/ui/screens/all-screens.ts';
import { firstStand, routine, sit } from './daily-sitting.ts';
import { easeNow } from '../../src/practice/sitting/ease-remarks.ts';
import { leftOpen } from '../../src/practice/sitting/sitting.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { withLastRoutine } from '../../src/practice/screens/today-keys.ts';

describe('a sitting', () => {
  it('begins with the block under the finger and counts its time once it is started', () => {
    const { press, pass, screen, item } = sit();
    press('open');
    expect(screen()).toBe('block');
    pass(30);
    expect(item()?.played).toBe(0);
    press('play-block');
    pass(30);
    expect(item()?.played).toBe(30);
  });

  it('puts a line of a block with a ladder on the stand, and the first key starts click and clock together', () => {
    const { press, pass, screen, practice, item, commands } = sit();
    press('open');
    while (screen() === 'block') press('next-block');
    const exercise = practice()?.exercise;
    expect(exercise?.work ?? 'ladder').toBe('ladder');
    press('start-pause');
    expect(commands().map(({ ask }) => ask)).toContain('play');
    pass(5);
    expect(item()?.played).toBe(5);
  });

  it('draws each key and articulation once before one comes twice', () => {
    const drawn: string[] = [];
    let known: readonly DayEntry[] = [];
    const lipBends = routine.exercises.find(({ id }) => id === 'lip-bends')!;
    for (let day = 0; day < lipBends.keys.length; day += 1) {
      const { press, practice, records } = sit(known);
      press('open');
      while (practice()?.line.exercise !== 'lip-bends') press('next-block');
      drawn.push(practice()!.line.key);
      press('start-pause');
      // Tomorrow knows what was drawn, but nothing of today's blocks.
      known = records().filter(({ kind }) => kind === 'draw');
    }
    expect([...drawn].sort()).toEqual([...lipBends.keys].sort());
  });

  it('is gone on with to the second after the program was killed', () => {
    const first = sit();
    first.press('open', 'play-block');
    first.pass(70);
    const killed = first.records();
    const again = sit(killed);
    // The journal hears of a block once a minute, so at most that much is lost.
    expect(leftOpen(again.stand())?.remark).toMatch(/Go on with part one, block one \(Breath and buzz\): 2:00 left/);
    again.press('go-on');
    expect(again.item()?.played).toBe(60);
  });

  it('loses nothing when it is left', () => {
    const first = sit();
    first.press('open', 'play-block');
    first.pass(42);
    first.press('back');
    expect(first.screen()).toBe('today');
    expect(leftOpen(first.stand())?.remark).toMatch(/2:18 left/);
  });

  it('takes minutes that are typed anew after a pause as a new number', () => {
    const { key, jump, stand } = sit();
    key('type-time', '1');
    key('type-time', '0');
    jump(3);
    key('type-time', '2');
    key('type-time', '5');
    expect(stand().day.minutes).toBe(25);
  });

  it('asks for the tension of a block once, and keeps the answer', () => {
    const { press, key, pass, records } = sit();
    press('open', 'play-block');
    pass(1);
    press('next-block');
    key('tension', '3');
    expect(records().at(-1)).toMatchObject({ kind: 'tension', level: 3, exercise: 'easy-start' });
    key('tension', '1');
    expect(records().filter(({ kind }) => kind === 'tension')).toHaveLength(1);
  });

  it('offers something easier after two high readings in a row, in the usual words', () => {
    const { press, key, pass, stand } = sit();
    press('open', 'play-block');
    for (const level of ['3', '4']) {
      pass(1);
      press('next-block');
      key('tension', level);
    }
    // Wording: the usual caution of health pages: stop on pain, see a licensed clinician or your teacher.
    expect(easeNow(stand())).toMatch(/rest|stop|down/);
    expect(easeNow(stand())).toMatch(/licensed clinician or your teacher/);
  });

  it('uses up no draw by being looked at', () => {
    const { press, screen, records, practice } = sit();
    press('open');
    while (screen() === 'block') press('next-block');
    const drawn = records().filter(({ kind }) => kind === 'draw').length;
    const { key } = practice()!;
    press('back');
    expect(records().filter(({ kind }) => kind === 'draw')).toHaveLength(drawn);
    expect(key).toBeDefined();
  });

  it('goes on with whichever routine was being played', () => {
    const other = { ...routine, id: 'horn', title: 'Horn' };
    const first = sit();
    first.press('open', 'play-block');
    first.pass(70);
    const records = first.records().map((record) => ('routine' in record ? { ...record, routine: 'horn' } : record));
    const first2 = firstStand(records);
    const stand: Stand = { ...first2, known: { ...first2.known, routines: [routine, other] } };
    const shown = withLastRoutine(stand);
    expect(shown.day.routine).toBe(1);
    expect(leftOpen(shown)?.routine).toBe('horn');
    // One key, one meaning: it goes on with the routine that shows.
    expect(leftOpen(stand)).toBeNull();
  });

  it('keeps a note that is typed at the end', () => {
    const { press, key, stand, screen, records } = sit();
    press('open');
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
    press('note');
    for (const each of ['q', 'space', 'x', 'y', 'backspace', 'enter']) key('note', each);
    expect(records().at(-1)).toMatchObject({ kind: 'note', text: 'q x' });
    expect(stand().leaving).toBe(false);
  });

  it('ends on its own screen, with silence', () => {
    const { press, screen, commands } = sit();
    press('open');
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
    expect(screen()).toBe('end');
    expect(
      commands()
        .filter(({ ask }) => ask === 'drone')
        .at(-1),
    ).toEqual({ ask: 'drone', drone: null });
  });

  it('pauses clock, click and drone with one key, and goes on with all three with the same', () => {
    const { press, pass, item, commands, practice, stand } = sit();
    press('open');
    while (!practice()) press('next-block');
    press('drone', 'start-pause');
    pass(5);
    const before = item()?.played;
    press('pause-block');
    pass(30);
    expect(item()?.played).toBe(before);
    const sent = commands();
    expect(sent.filter(({ ask }) => ask === 'stop')).not.toEqual([]);
    expect(sent.findLast(({ ask }) => ask === 'drone')).toEqual({ ask: 'drone', drone: null });
    expect(stand().sitting?.run.phase).toBe('paused');
    press('pause-block');
    pass(5);
    expect(item()?.played).toBe((before ?? 0) + 5);
    expect(commands().findLast(({ ask }) => ask === 'drone')).toMatchObject({ drone: { tuning: 'just' } });
    expect(commands().at(-1)?.ask).toBe('play');
  });

  it('takes back what was said last: the reading while it is the newest, then the mark before it', () => {
    const { press, key, pass, stand, practice, screen, records } = sit();
    press('open', 'play-block');
    pass(120);
    while (screen() === 'block') press('next-block');
    key('tension', '3');
    expect(messageNow(stand())?.sentence).toMatch(/tension 3 of 4; u takes it back/);
    press('undo');
    expect(records().filter(({ kind }) => kind === 'tension')).toEqual([]);
    expect(messageNow(stand())?.sentence).toBe('The reading is taken back.');
    expect(practice()?.kept).toEqual([]);
  });

  it('tells of tomorrow by the routine that was played, whichever Today shows', () => {
    const { press, screen, stand } = sit();
    press('open');
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
    const other = { ...routine, id: 'other', title: 'Other', parts: [] };
    const { known, day } = stand();
    const shown: Stand = { ...stand(), known: { ...known, routines: [routine, other] }, day: { ...day, routine: 1 } };
    const end = (of: Stand) => plainText(drawScreen(of, { columns: 100, rows: 60, lettering: 'signs', foot: [] }));
    expect(end(shown)).toContain('Tomorrow, after the warm-up');
    expect(end(shown)).toBe(end(stand()));
  });
});
