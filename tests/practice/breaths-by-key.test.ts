/** Breaths counted by a key: taken back by the one key that takes things back; a key that can do nothing says so. */
import { describe, expect, it } from 'vitest';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { messageNow } from '../../src/practice/messages.ts';
import { standWith, sit } from './daily-sitting.ts';

const parsed = parseRoutine(
  `
routine: Breaths
breaks: none
exercises: {tall: {kind: body, work: clock}, breath: {kind: body, breaths: 3}}
parts:
  - part: All
    blocks:
      - {play: tall, minutes: 2, least: 2, always: yes}
      - {play: breath, minutes: 3, least: 3, always: yes}
`,
  'breaths.yaml',
  () => ({ trouble: 'there is no such file.' }),
);
if (!('routine' in parsed)) throw new Error(JSON.stringify(parsed.troubles));
const { routine } = parsed;

/** In the block of breaths, its clock running, the question about the block before not answered yet. */
function breathing() {
  const sat = sit([], standWith(routine, []));
  sat.press('open', 'play-block');
  sat.pass(5);
  sat.press('next-block');
  const run = () => sat.stand().sitting!.run;
  const said = () => messageNow(sat.stand())?.sentence;
  return { ...sat, run, said };
}

const tensions = (records: readonly { readonly kind: string }[]): number =>
  records.filter(({ kind }) => kind === 'tension').length;

describe('u in a block of breaths', () => {
  it('takes the newest breath back, which goes on from where it began', () => {
    const { press, pass, run, said } = breathing();
    pass(6);
    press('breath');
    pass(4);
    press('breath');
    pass(3);
    expect([run().breaths, run().breathAt]).toEqual([2, 10]);
    press('undo');
    expect(said()).toBe('The breath is taken back.');
    expect([run().breaths, run().breathAt]).toEqual([1, 6]);
    press('undo');
    expect([run().breaths, run().breathAt]).toEqual([0, 0]);
    press('undo');
    expect(said()).toBe('Nothing to take back here.');
  });

  it('takes back what was said last, be it the breath or the reading', () => {
    const { press, key, run, said, records } = breathing();
    press('breath');
    key('tension', '2');
    press('breath');
    expect([run().breaths, tensions(records())]).toEqual([2, 1]);
    press('undo');
    expect([run().breaths, tensions(records())]).toEqual([1, 1]);
    press('undo');
    expect(said()).toBe('The reading is taken back.');
    expect([run().breaths, tensions(records())]).toEqual([1, 0]);
    press('undo');
    expect([run().breaths, said()]).toEqual([0, 'The breath is taken back.']);
  });

  it('opens a block again that its last breath ended, and its clock waits', () => {
    const { press, pass, run, item } = breathing();
    pass(5);
    press('breath', 'breath', 'breath');
    expect(run().phase).toBe('over');
    press('undo');
    expect([run().phase, run().breaths, item()?.state, run().asked]).toEqual(['paused', 2, 'open', null]);
    press('play-block');
    pass(2);
    press('breath');
    expect([run().phase, item()?.state]).toEqual(['over', 'done']);
  });
});

describe('a key that can do nothing here', () => {
  it('says so: a breath while the clock stands', () => {
    const { press, run, said } = breathing();
    press('play-block');
    press('breath');
    expect([run().breaths, said()]).toEqual([0, 'Breaths count while the clock runs: start it first.']);
  });

  it('says so: another key, another way of tonguing in work on the body', () => {
    const { press, said } = breathing();
    for (const action of ['key-after', 'key-before', 'articulation', 'another-draw'] as const) {
      press(action);
      expect(said()).toBe('This block has no keys to change.');
    }
  });
});
