import { Fault } from '../fault.ts';

/** How a tile's copies stand on the cloth or wall. */
export type LayoutKind = 'straight' | 'drop' | 'brick' | 'mirror-x' | 'mirror-y' | 'mirror-xy' | 'turn';

/**
 * A layout. `numerator / denominator` is the drop (of the tile's height, per column) or the
 * brick offset (of its width, per row) in lowest terms; 0/1 for the other kinds.
 */
export interface Layout {
  readonly kind: LayoutKind;
  readonly numerator: number;
  readonly denominator: number;
}

/** Words a person may write for a layout. */
export const LAYOUT_FORMS = [
  'straight',
  'drop:1/2',
  'brick:1/3',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
] as const;

/** A fraction finer than this would need tiles of thousands of pixels to land on whole ones. */
export const LARGEST_DENOMINATOR = 64;

export const STRAIGHT: Layout = { kind: 'straight', numerator: 0, denominator: 1 };

/**
 * Reads `straight`, `drop:p/q`, `brick:p/q`, `mirror-x`, `mirror-y`, `mirror-xy` or `turn`.
 * A bare `drop` or `brick` means one half.
 *
 * @throws Fault (usage) for any other text, or a fraction outside 0..1 or finer than 1/64.
 */
export function parseLayout(text: string): Layout {
  const [kind, fraction] = text.trim().toLowerCase().split(':');
  if (kind === 'drop' || kind === 'brick') return sheared(kind, fraction ?? '1/2', text);
  if (fraction === undefined && isUnsheared(kind)) return { kind, numerator: 0, denominator: 1 };
  throw unreadable(text);
}

/** The text that `parseLayout` reads back to the same layout. */
export function formatLayout({ kind, numerator, denominator }: Layout): string {
  return kind === 'drop' || kind === 'brick' ? `${kind}:${numerator}/${denominator}` : kind;
}

/** True for the layouts that show the tile reflected or turned. */
export function isReflected({ kind }: Layout): boolean {
  return kind.startsWith('mirror') || kind === 'turn';
}

function isUnsheared(kind: string): kind is Exclude<LayoutKind, 'drop' | 'brick'> {
  return ['straight', 'mirror-x', 'mirror-y', 'mirror-xy', 'turn'].includes(kind);
}

function sheared(kind: 'drop' | 'brick', fraction: string, text: string): Layout {
  const match = /^(\d{1,4})\/(\d{1,4})$/.exec(fraction);
  if (!match) throw unreadable(text);
  const numerator = Number(match[1]);
  const denominator = Number(match[2]);
  const divisor = greatestCommonDivisor(numerator, denominator) || 1;
  const layout = { kind, numerator: numerator / divisor, denominator: denominator / divisor };
  if (numerator <= 0 || numerator >= denominator || layout.denominator > LARGEST_DENOMINATOR) {
    throw new Fault({
      kind: 'usage',
      expected: `a fraction between 0 and 1 with a denominator up to ${LARGEST_DENOMINATOR}`,
      subject: `the ${kind} of the layout`,
      received: fraction,
      remedy: `Write for example ${kind}:1/2.`,
    });
  }
  return layout;
}

function unreadable(text: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: `one of ${LAYOUT_FORMS.join(', ')}`,
    subject: 'the layout',
    received: `"${text}"`,
    remedy: 'Fractions of drop and brick are yours to choose.',
  });
}

export function greatestCommonDivisor(a: number, b: number): number {
  let [m, n] = [Math.abs(a), Math.abs(b)];
  while (n > 0) [m, n] = [n, m % n];
  return m;
}
