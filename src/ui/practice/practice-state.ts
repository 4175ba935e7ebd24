/** What is to be seen from across the room: the answer to the last key, else what is to be done now. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Happened, Practice } from '../../practice/line/line-on-stand.ts';
import { spanHeard } from '../../practice/line/line-state.ts';
import { happenedNow } from '../../practice/line/what-happened.ts';
import { NO_BEAT } from '../still-beat.ts';
import { MARK_SIGNS } from '../components/mark-signs.ts';
import type { StateShape } from '../components/state-shape.ts';

/** The key that marks, as the player has set it. */
export type KeyOf = (action: 'clean' | 'tense' | 'missed' | 'next-block' | 'pedal-forward') => string;

const PLAIN: Pick<StateShape, 'detail' | 'share'> = { detail: '', share: 0 };

type OfOutcome = (happened: Happened) => StateShape;

const said = ({ run, of }: Happened): string => `${run} OF ${of}`;

const OUTCOMES: Readonly<Record<Happened['outcome'], OfOutcome>> = {
  clean: (happened) => ({
    ...PLAIN,
    kind: 'clean',
    word: `${happened.run}/${happened.of}`,
    detail: `${MARK_SIGNS.clean} CLEAN`,
    plain: `${MARK_SIGNS.clean} CLEAN ${said(happened)}`,
  }),
  tense: (happened) => ({ ...PLAIN, kind: 'tense', word: 'TENSE', detail: `${said(happened)}: AGAIN` }),
  // Enough of them and no fall: on the lowest rung, and where the rule aims at a share.
  missed: (happened) => ({
    ...PLAIN,
    kind: 'missed',
    word: 'MISSED',
    detail: happened.run >= happened.of ? 'STAY' : `${said(happened)} TO FALL`,
  }),
  climbed: ({ bpm }) => ({ ...PLAIN, kind: 'up', word: 'UP', detail: `TO ${bpmText(bpm)}` }),
  fallen: ({ bpm }) => ({ ...PLAIN, kind: 'down', word: 'DOWN', detail: `TO ${bpmText(bpm)}` }),
  held: ({ bpm }) => ({ ...PLAIN, kind: 'up', word: 'HELD', detail: `AT ${bpmText(bpm)}` }),
  'taken back': (happened) => ({
    ...PLAIN,
    kind: 'back',
    word: 'BACK',
    detail: `TAKEN BACK: ${said(happened)}`,
    plain: `TAKEN BACK: ${said(happened)}`,
  }),
};

/** A mark given before the end: seen at once, drawn lighter, counted at the end. */
function earlyShape({ phase, due }: Practice): StateShape | null {
  if (phase !== 'playing' || !due?.early) return null;
  const word = due.early.toUpperCase();
  const sign = MARK_SIGNS[due.early];
  return { ...PLAIN, kind: due.early, word, detail: 'AT THE END', plain: `${sign} ${word} AT THE END`, early: true };
}

/** How much of the bar has been heard, and of the whole span. */
function shares(practice: Practice): { readonly bar: number; readonly span: number; readonly left: number } {
  const { heard } = practice;
  const span = spanHeard(practice);
  if (!heard || !span) return { bar: 0, span: 0, left: 0 };
  if (heard.beat === NO_BEAT) return { bar: 1, span: 0, left: 0 };
  const done = heard.bar * heard.beatsInBar + heard.beat + 1;
  const all = (span.bars ?? 1) * heard.beatsInBar;
  return { bar: (heard.beat + 1) / heard.beatsInBar, span: Math.min(1, done / all), left: Math.max(0, all - done) };
}

const doors = (keyOf: KeyOf): StateShape => ({
  ...PLAIN,
  kind: 'doors',
  word: 'MARK?',
  doors: (['clean', 'tense', 'missed'] as const).map((mark) => `${keyOf(mark)}\n${MARK_SIGNS[mark]}\n${mark}`),
});

/** What is to be done now. */
function phaseShape(practice: Practice, keyOf: KeyOf): StateShape {
  const { phase, heard, due } = practice;
  const { bar, span, left } = shares(practice);
  if (due && (phase === 'breathing' || phase === 'waiting' || phase === 'stopped')) return doors(keyOf);
  switch (phase) {
    case 'ready':
      return { ...PLAIN, kind: 'ready', word: 'READY' };
    case 'stopped':
      return { ...PLAIN, kind: 'paused', word: 'PAUSED' };
    case 'count-in':
      return {
        kind: 'count',
        word: heard && heard.beat !== NO_BEAT ? `${heard.beat + 1}` : '',
        detail: 'COUNT-IN',
        share: bar,
      };
    case 'slow':
      return { kind: 'play', word: 'SLOW', detail: '', share: bar };
    case 'playing':
      return { kind: 'play', word: 'PLAY', detail: practice.before ? 'MARK THE LAST?' : '', share: bar };
    case 'breathing':
      return { kind: 'breathe', word: 'BREATHE', detail: left > 0 ? `${left} left` : '', share: span };
    case 'waiting':
      return { ...PLAIN, kind: 'ready', word: 'WAIT' };
  }
}

export function stateNow(practice: Practice, keyOf: KeyOf): StateShape {
  const happened = happenedNow(practice);
  return (
    earlyShape(practice) ?? (happened ? OUTCOMES[happened.outcome](happened) : null) ?? phaseShape(practice, keyOf)
  );
}

/** The same in one line, for where there is no room for a shape: '▲ UP TO 92', 'MARK? c clean, t tense, m missed'. */
export function stateLine(practice: Practice, keyOf: KeyOf): string {
  const { word, detail, plain, doors: names } = stateNow(practice, keyOf);
  if (names) return `${word} ${names.map((name) => name.split('\n').join(' ')).join(', ')}`;
  return plain ?? [detail === 'COUNT-IN' ? detail : word, detail === 'COUNT-IN' ? word : detail].join(' ').trim();
}
