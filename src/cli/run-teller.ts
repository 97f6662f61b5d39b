import type { Progress, RunEvent } from '../collection/index.ts';
import { formatTime } from './figures.ts';
import { progressLine } from './progress.ts';

/** Tells of a run while it goes on. */
export interface RunTeller {
  hear(event: RunEvent): void;
  end(): void;
}

/** Plain lines come no more often, in ms: a night's log should be read in a minute. */
const PLAIN_EVERY_MS = 10_000;

/** One line that moves on a terminal, now and then a line in a pipe, or every event as JSON. */
export function runTeller({ json }: { readonly json?: boolean }): RunTeller {
  if (json) return { hear: (event) => console.log(JSON.stringify(event)), end: () => {} };
  return process.stderr.isTTY ? movingTeller() : plainTeller();
}

function movingTeller(): RunTeller {
  const line = progressLine(process.stderr);
  return {
    hear(event) {
      if (event.event === 'progress') line.show(event.share, wordsOf(event));
      const words = remarkOn(event);
      if (!words) return;
      line.clear();
      console.error(`tenter: ${words}`);
    },
    end: () => line.clear(),
  };
}

function plainTeller(): RunTeller {
  let last = performance.now();
  return {
    hear(event) {
      const words = remarkOn(event);
      if (words) console.error(`tenter: ${words}`);
      if (event.event === 'begin')
        console.error(`${event.renders} renders to do, ${event.made} there already`);
      if (event.event !== 'progress') return;
      if (event.done < event.renders && performance.now() - last < PLAIN_EVERY_MS) return;
      last = performance.now();
      console.error(`${Math.round(event.share * 100)} %  ${wordsOf(event)}`);
    },
    end: () => {},
  };
}

function wordsOf({ done, renders, secondsLeft }: Progress): string {
  const left = secondsLeft === undefined || done === renders ? '' : `, ${formatTime(secondsLeft)} left`;
  return `${done} of ${renders}${left}`;
}

function remarkOn(event: RunEvent): string | undefined {
  switch (event.event) {
    case 'failed':
      return `failed: ${event.name}: ${event.reason}`;
    case 'retry':
      return `${event.name} will be tried again ${event.how}: ${event.reason}`;
    case 'waiting':
      return event.words;
    default:
      return undefined;
  }
}
