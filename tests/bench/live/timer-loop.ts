/**
 * For comparison: what a plain program does. A timer triggers the sample; each beat sounds when the timer gets round
 * to it.
 */
import { loadWebAudio } from '../../../src/audio/device/web-audio-library.ts';
import { loadKit } from '../../../src/audio/mix/click-voices.ts';

const [period, seconds] = process.argv.slice(2).map(Number) as [number, number];
const { AudioContext } = await loadWebAudio();
const context = new AudioContext({ latencyHint: 0.02, sampleRate: 48_000, sinkId: '' });
const sound = loadKit(48_000).click('stick', 'beat');

function strike(): void {
  const buffer = context.createBuffer(1, sound.length, 48_000);
  buffer.copyToChannel(sound, 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(context.destination);
  source.start(context.currentTime);
}

setTimeout(() => {
  const count = Math.round((seconds * 1000) / period);
  let struck = 0;
  const timer = setInterval(() => {
    strike();
    if (++struck === count) clearInterval(timer);
  }, period);
  setTimeout(() => process.exit(0), (seconds + 3) * 1000);
}, 1500);
