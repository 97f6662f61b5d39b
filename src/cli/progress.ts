import { trimNumber } from '../repeat/length.ts';
import { formatTime } from './figures.ts';

/** Shows how far long work has come: on one line of a terminal, or now and then on a line of its own in a pipe. */
export interface ProgressLine {
  /** Says, where that is long, how many seconds so many pixels are thought to take. */
  expect(seconds: number, pixels: number): void;
  /** @param done 0..1 */
  show(done: number, what: string): void;
  clear(): void;
}

const BAR_CELLS = 24;
/** Seconds that nobody needs to be told of beforehand. */
const SHORT = 5;
/** ms between plain lines of work that is known to be long, and of other. */
const PLAIN_EVERY = { long: 10_000, other: 30_000 } as const;
const SILENT: ProgressLine = { expect: () => {}, show: () => {}, clear: () => {} };

/** @param stream Where to. */
export function progressLine(stream: NodeJS.WriteStream, quiet = false): ProgressLine {
  if (quiet) return SILENT;
  const pace = openPace();
  const shown = stream.isTTY ? movingLine(stream) : plainLines(stream, () => pace.expected > SHORT);
  return {
    expect(seconds, pixels) {
      pace.expected = seconds;
      if (seconds <= SHORT) return;
      if (stream.isTTY) shown.clear();
      const amount = trimNumber(pixels / 1e6, 1);
      stream.write(`tenter: ${amount} megapixels, about ${formatTime(seconds)} (a first guess)\n`);
    },
    show(done, what) {
      shown.show(done, () => `${what}${pace.leftWords(done)}`);
    },
    clear: shown.clear,
  };
}

/** A line with words that are found when they are shown. */
interface Shown {
  show(done: number, words: () => string): void;
  clear(): void;
}

/** Time left: by the first guess at the beginning, and more and more by how the work goes. */
function openPace() {
  const started = Date.now();
  return {
    expected: 0,
    leftWords(done: number): string {
      if (this.expected <= SHORT || done >= 1) return '';
      const passed = (Date.now() - started) / 1000;
      const guessed = Math.max(0, this.expected - passed);
      const seconds = done > 0 ? (1 - done) * guessed + passed * (1 - done) : guessed;
      return `, about ${formatTime(seconds)} left`;
    },
  };
}

function movingLine(stream: NodeJS.WriteStream): Shown {
  let last = '';
  return {
    show(done, words) {
      const cells = Math.round(Math.min(1, Math.max(0, done)) * BAR_CELLS);
      const bar = `${'#'.repeat(cells)}${'.'.repeat(BAR_CELLS - cells)}`;
      const line = `${bar} ${percent(done)}  ${words()}`;
      if (line === last) return;
      last = line;
      stream.write(`\r\u001b[K${line}`);
    },
    clear() {
      if (last) stream.write('\r\u001b[K');
      last = '';
    },
  };
}

/** By a clock of its own, so that work that says nothing for long is told of as well. */
function plainLines(stream: NodeJS.WriteStream, isLong: () => boolean): Shown {
  let say: (() => string) | undefined;
  let told = Date.now();
  const timer = setInterval(() => {
    const every = isLong() ? PLAIN_EVERY.long : PLAIN_EVERY.other;
    if (!say || Date.now() - told < every) return;
    told = Date.now();
    stream.write(`${say()}\n`);
  }, 1000);
  timer.unref();
  return {
    show(done, words) {
      say = () => `${percent(done)}  ${words()}`;
    },
    clear: () => clearInterval(timer),
  };
}

function percent(done: number): string {
  return `${Math.round(done * 100)} %`;
}
