import type { FaultParts } from '../../fault.ts';
import type { EffectDescription } from '../../render/description.ts';
import type { GatherOrder, PassOrder, Prepared, PrepareOrder, SoftenOrder } from '../../render/orders.ts';
import type { PlaneRange } from '../../render/ranges.ts';

export interface DescribeOrder {
  readonly kind: 'describe';
  readonly moduleUrl: string;
  /** Where the module came from, for messages. */
  readonly place: string;
}

export interface RunPassOrder {
  readonly kind: 'pass';
  readonly pass: PassOrder;
}

export type Order = DescribeOrder | PrepareOrder | RunPassOrder | SoftenOrder | GatherOrder;

/** What each kind of order comes back with. */
export interface Results {
  readonly describe: EffectDescription;
  readonly prepare: Prepared;
  /** Per step, where the pass asked for them. */
  readonly pass: readonly (readonly PlaneRange[])[];
  readonly soften: undefined;
  readonly gather: undefined;
}

/** The render that an order belongs to. */
export interface TaskMark {
  readonly id: number;
  /** One shared number; not 0 once the render is given up. */
  readonly stop: Int32Array;
}

/** What a thread is sent. */
export interface Posted {
  readonly task: TaskMark;
  readonly order: Order;
}

/** What a thread says. It has one order at a time; `stray` is an error that no call was there to catch. */
export type Answer =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'done'; readonly result: Results[Order['kind']] }
  | { readonly kind: 'fault'; readonly fault: FaultParts }
  | {
      readonly kind: 'stray';
      readonly task?: number;
      /** True where the thread comes to its end by it; else it goes on with its order. */
      readonly isEnding: boolean;
      readonly fault: FaultParts;
    };
