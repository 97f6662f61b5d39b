import { afterEach, expect, it } from 'vitest';
import { KeptThread, type ThreadEnd } from './kept-thread.ts';

const threads: KeptThread<string, string>[] = [];
afterEach(async () => {
  await Promise.all(threads.splice(0).map((thread) => thread.stop()));
});

/** A thread that does what its order says, and a list of all that was heard of it. */
function keep(): {
  thread: KeptThread<string, string>;
  told: unknown[];
  untilTold(count: number): Promise<void>;
} {
  const code = `
    import { parentPort, workerData } from 'node:worker_threads';
    const { port, name } = workerData;
    const deeds = {
      greet: () => port.postMessage('last ' + name),
      count: () => { port.postMessage('one'); port.postMessage('last'); },
      forge: () => { parentPort.postMessage('last'); port.postMessage('last true'); },
      junk: () => port.postMessage(7),
      twice: () => { port.postMessage('last'); port.postMessage('last'); },
      exit: () => process.exit(3),
      answerAndExit: () => { port.postMessage('last'); process.exit(3); },
      throw: () => { throw new Error('broken'); },
      hang: () => { for (;;); },
    };
    port.on('message', (order) => deeds[order]());`;
  const told: unknown[] = [];
  let wake = () => {};
  const tell = (what: unknown) => {
    told.push(what);
    wake();
  };
  const keeper = {
    isAnswer: (said: unknown): said is string => typeof said === 'string',
    isLast: (answer: string) => answer.startsWith('last'),
    hear: tell,
    lose: ({ reason, order }: ThreadEnd<string>) => tell({ reason, order }),
  };
  const url = new URL(`data:text/javascript,${encodeURIComponent(code)}`);
  const thread = new KeptThread(url, keeper, { gift: { name: 'Ann' }, limits: {} });
  threads.push(thread);
  const untilTold = async (count: number) => {
    while (told.length < count) await new Promise<void>((resolve) => (wake = resolve));
    // Whatever came after that would be too much.
    await new Promise((resolve) => setTimeout(resolve, 100));
  };
  return { thread, told, untilTold };
}

const NONE = 'an answer that is none of its order';

it.each([
  ['greet', ['last Ann']],
  ['count', ['one', 'last']],
  ['forge', ['last true']],
  ['junk', [{ reason: NONE, order: 'junk' }]],
  ['twice', ['last', { reason: NONE, order: undefined }]],
  ['exit', [{ reason: 'exit code 3', order: 'exit' }]],
  ['throw', [{ reason: 'broken', order: 'throw' }]],
])('hears of an order to %s what is true, and each thing once', async (order, expected) => {
  const { thread, told, untilTold } = keep();
  thread.give(order);
  await untilTold(expected.length);
  expect(told).toEqual(expected);
});

it('hears the last words of a thread before its end', async () => {
  const { thread, told, untilTold } = keep();
  thread.give('answerAndExit');
  await untilTold(2);
  expect(told[0]).toBe('last');
  expect(told[1]).toMatchObject({ reason: 'exit code 3' });
});

it('hears nothing more of a thread that was stopped', async () => {
  const { thread, told, untilTold } = keep();
  thread.give('hang');
  await thread.stop();
  await untilTold(0);
  expect(told).toEqual([]);
});
