import type { Shelf } from '../../host/plugins/shelf.ts';
import type { Failure } from '../disk/failures.ts';
import type { RunEvent } from './events.ts';

/** How a plan is run. */
export interface RunSettings {
  readonly shelf: Shelf;
  /** Threads that work; all cores where absent. The bytes are the same for any number. */
  readonly workers?: number;
  /** Bytes that may be in use; half of the machine's where absent. */
  readonly memory?: number;
  /** Longest time that an effect may go without a sign of progress, in s. */
  readonly secondsPerCall?: number;
  /** How long to wait for room on a full disk, in s; 15 where absent. */
  readonly roomSeconds?: number;
  /** Take the names of renders from files of strangers, which are kept beside under another. */
  readonly overwrite?: boolean;
  /** Read pictures whole before they count as made. */
  readonly verify?: boolean;
  /** Folders of plugins, for the commands that are told. */
  readonly plugins?: readonly string[];
  readonly signal?: AbortSignal;
  readonly onEvent?: (event: RunEvent) => void;
}

/** What came of a run. */
export interface RunResult {
  readonly made: number;
  /** There already when the run began. */
  readonly kept: number;
  /** Made meanwhile by another run on the same folder. */
  readonly elsewhere: number;
  readonly failed: readonly Failure[];
  /** Neither made nor failed. */
  readonly left: number;
  readonly stopped?: 'cancelled' | 'full';
  readonly seconds: number;
  /** Most memory of the process, in bytes. */
  readonly peakBytes: number;
  /** Most memory that was accounted for, which the budget limits. */
  readonly plannedBytes: number;
  readonly saved: Saved;
}

/** Work that was not done again. */
export interface Saved {
  readonly decodes: number;
  readonly tileChecks: number;
  readonly prepares: number;
  readonly paints: number;
}
