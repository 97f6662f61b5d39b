import { describeThrown } from '../../effect/runner.ts';
import { Fault, type FaultParts } from '../../fault.ts';

/** Any error as plain data that can be sent: details of a plugin's own may hold what cannot. */
export function plainFault(error: unknown): FaultParts {
  if (!Fault.is(error)) {
    const received = error instanceof Error ? (error.stack ?? error.message) : describeThrown(error);
    return { kind: 'effect', expected: 'the worker to finish', subject: 'a render', received };
  }
  const { kind, expected, subject, received, remedy, details } = error;
  const words = { kind, expected: String(expected), subject: String(subject), received: String(received) };
  return { ...words, ...(remedy ? { remedy: String(remedy) } : {}), details: plainDetails(details) };
}

function plainDetails(details: FaultParts['details']): FaultParts['details'] {
  try {
    return details && JSON.parse(JSON.stringify(details));
  } catch {
    return { unreadable: 'the details of this fault are no plain data' };
  }
}
