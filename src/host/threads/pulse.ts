import type { Stage } from '../../effect/runner.ts';

const STAGES = ['load', 'planesFor', 'prepare', 'paint'] as const satisfies readonly Stage[];
const BEAT = 0;
const STEP = 1;
const STAGE = 2;

/**
 * A few numbers that a thread and the host share, so that the host knows what a thread is at even
 * while it answers nothing: which stage of which step, and whether anything has moved since.
 */
export class Pulse {
  readonly cells: Int32Array<ArrayBufferLike>;

  constructor(cells: Int32Array<ArrayBufferLike> = new Int32Array(new SharedArrayBuffer(12))) {
    this.cells = cells;
  }

  /** Said by the thread before each call into an effect. */
  enter(stage: Stage, step = 0): void {
    Atomics.store(this.cells, STEP, step);
    Atomics.store(this.cells, STAGE, STAGES.indexOf(stage));
    this.beat();
  }

  /** Said by the thread whenever work has moved on. */
  beat(): void {
    Atomics.add(this.cells, BEAT, 1);
  }

  read(): { readonly beat: number; readonly step: number; readonly stage: Stage } {
    return {
      beat: Atomics.load(this.cells, BEAT),
      step: Atomics.load(this.cells, STEP),
      stage: STAGES[Atomics.load(this.cells, STAGE)],
    };
  }
}
