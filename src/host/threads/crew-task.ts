import { cancelled } from '../../effect/setting.ts';
import type { Fault } from '../../fault.ts';
import type { EffectDescription } from '../../render/description.ts';
import type { GatherOrder, PassOrder, Prepared, PrepareOrder } from '../../render/orders.ts';
import { joinRanges } from '../../render/ranges.ts';
import { softenOrders } from '../../render/soften.ts';
import { openBandPace } from './band-pace.ts';
import type { DescribeOrder, Order, Results, TaskMark } from './messages.ts';
import type { Seat } from './seat.ts';

/** How long the other threads of a failed render have to come to the end of their bands. */
const GRACE_MS = 500;

/** How long whoever waits for the threads waits for one that was asked to stop. */
const PATIENCE_MS = 200;

/** What a thread takes to begin, to load what it runs and to compile it. */
const WORTH_A_THREAD_MS = 400;

/** What a task needs of its crew. */
export interface CrewDesk {
  seats(): Promise<readonly Seat[]>;
  /** Told before work starts how many bytes of shared pictures it may touch for the first time. */
  expect(bytes: number): void;
  leave(task: CrewTask): void;
  /** True where no other render follows for which a thread might begin. */
  readonly isBrief: boolean;
}

/** One render on a crew: what fails costs this task alone. */
export class CrewTask {
  readonly mark: TaskMark;
  readonly #desk: CrewDesk;
  #seats: readonly Seat[] = [];
  #fault?: Fault;
  #dropping?: NodeJS.Timeout;

  constructor(id: number, desk: CrewDesk) {
    this.mark = { id, stop: new Int32Array(new SharedArrayBuffer(4)) };
    this.#desk = desk;
  }

  get hasFailed(): boolean {
    return this.#fault !== undefined;
  }

  /** Told before the host itself fills so many bytes of a picture for it: no effect took them. */
  expect(bytes: number): void {
    this.#desk.expect(bytes);
  }

  /** Loads a module and tells what effect it holds. */
  async describe(order: DescribeOrder): Promise<EffectDescription> {
    const [seat] = await this.#open(0);
    const [result] = await this.#all([this.#ask(seat, order, () => {})]);
    return result;
  }

  /** Prepares several effects, side by side. */
  async prepare(
    orders: readonly PrepareOrder[],
    onProgress: (step: number, done: number) => void,
  ): Promise<Prepared[]> {
    const seats = await this.#open(0);
    return this.#all(
      orders.map((order, index) => this.#ask(idlest(seats), order, (done) => onProgress(index, done))),
    );
  }

  /**
   * Lets every thread take bands until none is left; before that, of the levels that bleeding reads.
   *
   * @returns The ranges of every step's planes, where the pass asks for them.
   */
  async runPass(pass: PassOrder, onRows: (rows: number) => void): Promise<Results['pass']> {
    const seats = await this.#open(pictureBytes(pass));
    for (const order of softenOrders(pass))
      await this.#all(seats.map((seat) => this.#ask(seat, order, () => {})));
    const parts = await this.#paint(seats, pass, onRows);
    return parts.reduce((all, part) => part.map((ranges, step) => joinRanges(all[step], ranges)));
  }

  /** Threads that have yet to begin are asked once the others are seen to need long. */
  async #paint(
    seats: readonly Seat[],
    pass: PassOrder,
    onRows: (rows: number) => void,
  ): Promise<Results['pass'][]> {
    const warm = this.#desk.isBrief ? seats.filter(({ isWarm }) => isWarm) : seats;
    const first = warm.length > 0 ? warm : seats.slice(0, 1);
    const later = seats.filter((seat) => !first.includes(seat));
    const pace = openBandPace(pass.height);
    const asked: Promise<Results['pass']>[] = [];
    const ask = (seat: Seat, who: number) => {
      const painting = this.#ask(seat, { kind: 'pass', pass }, (rows) => hear(who, rows));
      // Whoever is asked later is waited for later; until then it must not end the process.
      painting.catch(() => {});
      asked.push(painting);
    };
    const hear = (who: number, rows: number) => {
      onRows(rows);
      const left = pace.left(who, rows, performance.now());
      if (this.#fault || left / first.length <= WORTH_A_THREAD_MS) return;
      for (const seat of later.splice(0)) ask(seat, asked.length);
    };
    for (const seat of first) ask(seat, asked.length);
    return this.#all(asked);
  }

  /** Lets every thread draw bands of a picture until none is left. */
  async gather(order: GatherOrder): Promise<void> {
    const seats = await this.#open(order.to.byteLength + order.from.pixels.byteLength);
    await this.#all(seats.map((seat) => this.#ask(seat, order, () => {})));
  }

  /** Ends the task; its threads have `grace` ms to stop by themselves. The first fault counts. */
  fail(fault: Fault, grace = GRACE_MS): void {
    this.#fault ??= fault;
    Atomics.store(this.mark.stop, 0, 1);
    if (grace === 0) this.#drop();
    else this.#dropping ??= setTimeout(() => this.#drop(), grace);
  }

  /** Stops all that the task still does, at once. */
  cancel(): void {
    this.fail(cancelled(), 0);
  }

  /**
   * Stops all that the task still does, and leaves the threads warm: what waits is taken back at once, what runs
   * ends with its band or at its next word of progress. Only a thread that does neither for long is replaced.
   */
  giveUp(): void {
    this.fail(cancelled(), PATIENCE_MS);
    for (const seat of this.#seats) seat.withdraw(this.mark);
  }

  end(): void {
    clearTimeout(this.#dropping);
    this.#desk.leave(this);
  }

  async #open(bytes: number): Promise<readonly Seat[]> {
    this.#desk.expect(bytes);
    this.#seats = await this.#desk.seats();
    if (this.#fault) throw this.#fault;
    return this.#seats;
  }

  #ask<K extends Order['kind']>(
    seat: Seat,
    order: Extract<Order, { kind: K }>,
    onProgress: (done: number) => void,
  ): Promise<Results[K]> {
    return new Promise((resolve, reject) => {
      seat.ask({
        task: this.mark,
        order,
        onProgress,
        resolve: (result) => resolve(result as Results[K]),
        reject: (fault) => {
          this.fail(fault);
          reject(fault);
        },
      });
    });
  }

  /** Waits for all, those asked meanwhile too, so that nobody still writes into the pictures of a render that is over. */
  async #all<T>(asked: readonly Promise<T>[]): Promise<T[]> {
    let ends = await Promise.allSettled(asked);
    while (ends.length < asked.length) ends = await Promise.allSettled(asked);
    clearTimeout(this.#dropping);
    if (this.#fault) throw this.#fault;
    return ends.map((end) => (end as PromiseFulfilledResult<T>).value);
  }

  #drop(): void {
    for (const seat of this.#seats) seat.drop(this.mark);
  }
}

function idlest(seats: readonly Seat[]): Seat {
  return seats.reduce((best, seat) => (seat.load < best.load ? seat : best));
}

function pictureBytes({ source, target, original, stack = [] }: PassOrder): number {
  const levels = stack.map(({ samples }) => samples);
  return [...new Set([source, target, original, ...levels])].reduce(
    (sum, pixels) => sum + pixels.byteLength,
    0,
  );
}
