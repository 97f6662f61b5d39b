import {
  MessageChannel,
  type MessagePort,
  type ResourceLimits,
  receiveMessageOnPort,
  Worker,
} from 'node:worker_threads';
import { passOutputOn } from './crew-output.ts';

/** What whoever keeps a thread hears of it. */
export interface ThreadKeeper<Order, Answer> {
  /** True for what the thread may say to the order that it has. */
  readonly isAnswer: (said: unknown, order: Order | undefined) => said is Answer;
  /** True for an answer after which the thread is free; all others tell how far it has come. */
  readonly isLast: (answer: Answer) => boolean;
  hear(answer: Answer): void;
  /** Told once, and never of a thread that was stopped. */
  lose(end: ThreadEnd<Order>): void;
}

/** How a thread came to its end. */
export interface ThreadEnd<Order> {
  /** As a noun, e.g. `exit code 3`. */
  readonly reason: string;
  /** What it threw, where it did. */
  readonly cause?: unknown;
  /** What it had when it ended, though its last words may have answered it. */
  readonly order?: Order;
}

export interface ThreadOptions {
  /** What it is born with, besides the way to the host. */
  readonly gift?: object;
  readonly limits: ResourceLimits;
}

/**
 * One thread, and the way to it that nothing run there can reach. It has one order at a time; idle, it
 * does not keep the process alive. What it prints goes to the messages, and not without end.
 */
export class KeptThread<Order, Answer> {
  readonly #keeper: ThreadKeeper<Order, Answer>;
  readonly #thread: Worker;
  readonly #line: MessagePort;
  #order?: Order;
  #isGone = false;

  constructor(url: URL, keeper: ThreadKeeper<Order, Answer>, { gift, limits }: ThreadOptions) {
    this.#keeper = keeper;
    const { port1: line, port2: port } = new MessageChannel();
    this.#line = line;
    this.#thread = new Worker(url, {
      workerData: { ...gift, port },
      transferList: [port],
      resourceLimits: limits,
      stdout: true,
      stderr: true,
    });
    passOutputOn([this.#thread.stdout, this.#thread.stderr]);
    this.#thread.unref();
    line.on('message', (said) => this.#hear(said));
    line.unref();
    this.#thread.on('error', (cause) => this.#lose(cause?.message ?? String(cause), cause));
    this.#thread.on('exit', (code) => this.#lose(`exit code ${code}`));
  }

  /** Only where it has no other order. */
  give(order: Order): void {
    this.#order = order;
    this.#thread.ref();
    this.#line.postMessage(order);
  }

  /** Ends it in the middle of whatever it does; nothing more is heard of it. */
  async stop(): Promise<void> {
    this.#isGone = true;
    this.#line.close();
    await this.#thread.terminate();
  }

  #hear(said: unknown): void {
    if (this.#isGone) return;
    const { isAnswer, isLast } = this.#keeper;
    if (!isAnswer(said, this.#order) || (isLast(said) && this.#order === undefined)) {
      this.#lose('an answer that is none of its order');
      return;
    }
    if (isLast(said)) {
      this.#order = undefined;
      this.#thread.unref();
    }
    this.#keeper.hear(said);
  }

  #lose(reason: string, cause?: unknown): void {
    if (this.#isGone) return;
    const order = this.#order;
    // What it said last may tell more than that it is gone.
    for (let last = this.#lastWord(); last; last = this.#lastWord()) this.#hear(last.message);
    if (this.#isGone) return;
    void this.stop();
    this.#keeper.lose({ reason, cause, order });
  }

  #lastWord(): { message: unknown } | undefined {
    return this.#isGone ? undefined : receiveMessageOnPort(this.#line);
  }
}
