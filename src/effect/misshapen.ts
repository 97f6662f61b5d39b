import { Fault } from '../fault.ts';

/** The Fault (effect) for what a plugin exports and is not of the contract. */
export function misshapen(
  subject: string,
  expected: string,
  received: string,
  remedy = 'plugins/README.md has the contract.',
): Fault {
  return new Fault({ kind: 'effect', expected, subject, received, remedy });
}

/** Whatever a plugin holds, in a few words. */
export function describe(value: unknown): string {
  if (typeof value === 'string') return `"${value}"`;
  if (value === undefined) return 'nothing';
  return Array.isArray(value)
    ? `[${value.join(', ')}]`
    : typeof value === 'object'
      ? 'an object'
      : String(value);
}
