/** How much an effect may take before its render is stopped. */
export interface Limits {
  /** Longest time without a sign of progress: in loading, in `prepare`, in one call of `paint`. */
  readonly seconds: number;
  /** Memory in MB that the process may grow by, beyond the pictures that the host holds itself. */
  readonly megabytes: number;
}

/** Generous: a healthy effect reports progress or ends a band many times a second. */
export const RENDER_LIMITS: Limits = { seconds: 120, megabytes: 768 };

/** Loading runs no more than the top of a module. */
export const LOAD_LIMITS: Limits = { seconds: 20, megabytes: 512 };

/** What every thread may add by itself: its heap, the compiled effects, the planes of one band. */
export const THREAD_MEGABYTES = 128;

/**
 * The limit that V8 itself keeps for a thread's heap. Far above ours on purpose: where V8 runs into its
 * own limit within one allocation it ends the whole process, so that ours has to come first.
 */
export const V8_HEAP_MEGABYTES = 1 << 16;

/**
 * What V8 may let pile up of short-lived objects in a thread before it sweeps them. Left to itself that
 * grows to 48 MB, and the typed arrays that dead objects hold lie outside of it: measured on a thousand
 * small renders, every thread had taken some 40 MB that it did not need.
 */
export const YOUNG_HEAP_MEGABYTES = 6;
