/** What sort of thing went wrong; the command line turns it into an exit code. */
export type FaultKind = 'usage' | 'input' | 'output' | 'effect' | 'cancelled';

/** The four parts that every message of the house has. */
export interface FaultParts {
  /** Whose it is: `usage` for a mistake of the user's, `effect` for one of the effect's own. */
  readonly kind: FaultKind;
  /** What would have been right, e.g. `a number from 4 to 40 per cm`. */
  readonly expected: string;
  /** The parameter or file it is about, e.g. `ends` or `tile.png`. */
  readonly subject: string;
  /** What came instead, e.g. `400`. */
  readonly received: string;
  /** What to do about it, a whole sentence; nothing is said where absent. */
  readonly remedy?: string;
  /**
   * The same as a person would say it, where "Expected X for SUBJECT" would be an odd sentence; that
   * sentence where absent.
   */
  readonly saying?: string;
  /** Facts for scripts, e.g. the effect's name, stage and seed; none where absent. */
  readonly details?: Readonly<Record<string, unknown>>;
  /** The error behind it; none where absent. */
  readonly cause?: unknown;
}

/**
 * The one error of the house. Its message reads `Expected X for SUBJECT but received Y. REMEDY`, or begins
 * with its own saying.
 */
export class Fault extends Error implements FaultParts {
  /** Whose it is: `usage` for a mistake of the user's, `effect` for one of the effect's own. */
  readonly kind: FaultKind;
  readonly expected: string;
  readonly subject: string;
  readonly received: string;
  readonly remedy?: string;
  readonly saying?: string;
  readonly details?: Readonly<Record<string, unknown>>;

  constructor(parts: FaultParts) {
    super(sentence(parts), { cause: parts.cause });
    this.name = 'Fault';
    this.kind = parts.kind;
    this.expected = parts.expected;
    this.subject = parts.subject;
    this.received = parts.received;
    this.remedy = parts.remedy;
    this.saying = parts.saying;
    this.details = parts.details;
  }

  /** True for a Fault of this copy of the package or another: a plugin may carry its own. */
  static is(error: unknown): error is Fault {
    return error instanceof Error && error.name === 'Fault' && 'expected' in error && 'kind' in error;
  }

  /** Plain data that survives a worker boundary and `JSON.stringify`. */
  toJSON(): FaultParts {
    const { kind, expected, subject, received, remedy, saying, details } = this;
    return { kind, expected, subject, received, remedy, saying, details };
  }
}

function sentence({ expected, subject, received, remedy, saying }: FaultParts): string {
  const first =
    saying ?? `Expected ${expected} for ${subject} but received ${received.replace(/(?<!\.)\.$/, '')}.`;
  return remedy ? `${first} ${remedy}` : first;
}
