import { EventEmitter } from 'node:events';
import { Terminal } from '@xterm/headless';
import { describe, expect, it } from 'vitest';
import { createFrames } from '../../src/runtime/screen/changed-lines.ts';
import { type PaintedLine, line, seg } from '../../src/ui/paint.ts';
import { COLOURS, PLAIN } from '../../src/ui/theme.ts';

/** A terminal that is looked at: xterm's own emulation of what a terminal makes of the bytes. */
function watched(columns = 20, rows = 4, theme = COLOURS) {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true });
  const sent: string[] = [];
  const events = new EventEmitter();
  const screen = {
    columns,
    rows,
    write: (text: string) => {
      sent.push(text);
      terminal.write(text);
    },
    on: (event: 'resize', listener: () => void) => void events.on(event, listener),
    off: (event: 'resize', listener: () => void) => void events.off(event, listener),
  };
  const frames = createFrames(screen, theme);
  const see = async (): Promise<string> => {
    await new Promise<void>((resolve) => terminal.write('', resolve));
    const { active } = terminal.buffer;
    return Array.from({ length: rows }, (_, row) => active.getLine(row)?.translateToString(true) ?? '').join('\n');
  };
  return { frames, see, sent, events, terminal };
}

const drawing = (...texts: readonly string[]): readonly PaintedLine[] => texts.map((text) => line(seg(text, 'now')));

describe('frames', () => {
  it('hand the terminal no text that it would obey, whatever made the drawing', async () => {
    const { frames, see, sent } = watched();
    const evil = 'a\u001b]52;c;eA==\u0007b\u009b2Jc\u202e';
    frames.paint([[{ text: evil, tone: 'now' }], line(seg(evil))]);
    expect(await see()).toBe('a\ufffd]52;c;eA==\ufffdb\ufffd2Jc\ufffd\na\ufffd]52;c;eA==\ufffdb\ufffd2Jc\ufffd\n\n');
    for (const obeyed of ['\u001b]', '\u0007', '\u009b', '\u202e']) expect(sent.join('')).not.toContain(obeyed);
  });

  it('show a drawing, and then only send what has changed', async () => {
    const { frames, see, sent } = watched();
    frames.paint(drawing('one', 'two', 'three'));
    expect(await see()).toBe('one\ntwo\nthree\n');
    frames.paint(drawing('one', '2', 'three'));
    expect(await see()).toBe('one\n2\nthree\n');
    expect(sent.at(-1)).toContain('2');
    expect(sent.at(-1)).not.toContain('three');
    const before = sent.length;
    frames.paint(drawing('one', '2', 'three'));
    expect(sent).toHaveLength(before);
  });

  it('never scroll: lines as wide and as many as the screen stay where they are', async () => {
    const { frames, see } = watched(5, 3);
    frames.paint(drawing('aaaaa', 'bbbbb', 'ccccc', 'below'));
    expect(await see()).toBe('aaaaa\nbbbbb\nccccc');
    frames.paint(drawing('aaaaa', 'xxxxx', 'ccccc'));
    expect(await see()).toBe('aaaaa\nxxxxx\nccccc');
  });

  it('send nothing while the screen is somebody else’s, and everything when it is theirs again', async () => {
    const { frames, see, terminal } = watched();
    frames.paint(drawing('one'));
    frames.hold();
    terminal.write('\u001b[2J\u001b[Hshell');
    frames.paint(drawing('two'));
    expect(await see()).toMatch(/^shell/);
    frames.repeat();
    expect(await see()).toMatch(/^two/);
  });

  it('draw anew after a change of size', async () => {
    const { frames, see, terminal, events } = watched();
    frames.paint(drawing('one'));
    terminal.write('garbage');
    events.emit('resize');
    expect(await see()).toBe('one\n\n\n');
  });

  it('say the same without colour (NO_COLOR, no-color.org)', async () => {
    const { frames, sent } = watched(20, 4, PLAIN);
    frames.paint([line(seg('clean', 'clean'), seg('tense', 'tense'), seg('missed', 'missed'))]);
    // SGR 30 to 37 choose a colour (ECMA-48, 8.3.117).
    expect(
      sent
        .join('')
        .split('\u001b[')
        .filter((part) => /^[0-9;]*3[0-7]m/.test(part)),
    ).toEqual([]);
    expect(sent.join('')).toContain('cleantensemissed');
  });
});
