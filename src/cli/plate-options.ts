import { Fault } from '../fault.ts';
import { millimetresOf } from '../repeat/length.ts';

/** mm of a trap. @throws Fault (usage) for what is no width above 0. */
export function parseTrap(text: string): number {
  const mm = millimetresOf(text);
  if (mm !== undefined && mm > 0) return mm;
  throw new Fault({
    kind: 'usage',
    expected: 'a width above 0 with its unit (mm, cm or in)',
    subject: '--trap',
    received: `"${text}"`,
    remedy: 'Write for example 0.2mm.',
  });
}

/** Names with commas between. */
export function namesOf(text: string): string[] {
  return text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
}
