import type { Band } from '../effect.ts';
import type { AnyLayer, PlaneName } from '../layer.ts';
import { BREAKS, Failed, type FailureParts } from './failed.ts';
import type { Sample } from './sample.ts';

/** Where numbers were found that are not sound. */
export interface UnsoundPlace {
  readonly sample: Sample;
  /** What was painted. */
  readonly view: Pick<Band, 'x' | 'y' | 'width' | 'height'>;
  readonly layer: AnyLayer;
  /** Of the first of them. */
  readonly plane: PlaneName;
  readonly value: number;
  /** What is known of the cause already, as a whole sentence. */
  readonly aside?: string;
}

/** Thrown where a layer holds a number that it must not; it can be looked at again, to find what it comes of. */
export class FoundUnsound extends Failed {
  readonly found: UnsoundPlace;

  constructor(found: UnsoundPlace, parts: FailureParts) {
    super(found.sample.trial, { breaks: BREAKS.unsound, ...parts });
    this.found = found;
  }
}
