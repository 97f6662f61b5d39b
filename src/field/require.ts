import { Fault } from '../fault.ts';

/**
 * Refuses a length that cannot be one. Effects are given checked parameters, but what they make of
 * them may still come out as nothing: it is named here, not as an endless loop further down.
 *
 * @throws Fault (effect) unless `value` is finite and above 0.
 */
export function requirePositive(value: number, subject: string): void {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return;
  throw new Fault({
    kind: 'effect',
    expected: 'a number above 0',
    subject,
    received: String(value),
    remedy: 'Limit it where the effect works it out from its parameters.',
  });
}
