import { Fault } from '../fault.ts';
import { nearestName } from '../nearest.ts';

/** How a tile's copies stand on the cloth or wall. */
export type LayoutKind = 'straight' | 'drop' | 'brick' | 'mirror-x' | 'mirror-y' | 'mirror-xy' | 'turn';

/**
 * A layout. `numerator / denominator` is the drop (of the tile's height, per column) or the
 * brick offset (of its width, per row) in lowest terms; 0/1 for the other kinds.
 */
export interface Layout {
  /** How the copies stand. */
  readonly kind: LayoutKind;
  /** p of a drop or brick of p/q, a count; else 0. */
  readonly numerator: number;
  /** q of a drop or brick of p/q, a count; else 1. */
  readonly denominator: number;
}

/** A fraction finer than this would need tiles of thousands of pixels to land on whole ones. */
export const LARGEST_DENOMINATOR = 64;

/** The layout without an offset: tile beside tile, tile under tile. */
export const STRAIGHT: Layout = { kind: 'straight', numerator: 0, denominator: 1 };

/** Whole phrases of the trade. */
const PHRASES: Readonly<Record<string, Exclude<LayoutKind, 'drop' | 'brick'>>> = {
  straight: 'straight',
  block: 'straight',
  square: 'straight',
  'full drop': 'straight',
  'mirror x': 'mirror-x',
  'mirror y': 'mirror-y',
  'mirror xy': 'mirror-xy',
  mirror: 'mirror-xy',
  mirrored: 'mirror-xy',
  turn: 'turn',
  turned: 'turn',
  'half turn': 'turn',
};

/** Fractions as they are said: half-drop, quarter drop, two-thirds brick. */
const FRACTIONS: Readonly<Record<string, string>> = {
  '': '1/2',
  half: '1/2',
  third: '1/3',
  'one third': '1/3',
  'two third': '2/3',
  'two thirds': '2/3',
  quarter: '1/4',
  'one quarter': '1/4',
  'three quarter': '3/4',
  'three quarters': '3/4',
  fifth: '1/5',
  sixth: '1/6',
  eighth: '1/8',
};

/** What stands beside a layout's name and says nothing more. */
const FILLERS = ['repeat', 'match', 'layout'];

/**
 * Reads `straight`, `drop:p/q`, `brick:p/q`, `mirror-x`, `mirror-y`, `mirror-xy` or `turn`, and what the
 * trade says for them: half-drop, quarter drop, half brick. A bare `drop` or `brick` means one half, a
 * bare `half` or `quarter` a drop, a bare `mirror` both ways.
 *
 * @throws Fault (usage) for any other text, or a fraction outside 0..1 or finer than 1/64.
 */
export function parseLayout(text: string): Layout {
  const words = wordsOf(text);
  const phrase = words.join(' ');
  if (Object.hasOwn(PHRASES, phrase)) return { kind: PHRASES[phrase], numerator: 0, denominator: 1 };
  const kinds = words.filter((word) => word === 'drop' || word === 'brick');
  const fraction = words.filter((word) => word !== 'drop' && word !== 'brick').join(' ');
  const isWord = Object.hasOwn(FRACTIONS, fraction);
  if (kinds.length === 1) return sheared(kinds[0], isWord ? FRACTIONS[fraction] : fraction, text);
  if (kinds.length === 0 && fraction !== '' && isWord) return sheared('drop', FRACTIONS[fraction], text);
  throw unreadable(text);
}

/** A minus before a figure is no hyphen, and stays. */
function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .replaceAll(/drop|brick/g, ' $& ')
    .split(/[\s_:]+|(?<=\w\s*)-/)
    .filter((word) => word !== '' && !FILLERS.includes(word));
}

/** The text that `parseLayout` reads back to the same layout. */
export function formatLayout({ kind, numerator, denominator }: Layout): string {
  return kind === 'drop' || kind === 'brick' ? `${kind}:${numerator}/${denominator}` : kind;
}

/** True for the layouts that show the tile reflected or turned. */
export function isReflected({ kind }: Layout): boolean {
  return kind.startsWith('mirror') || kind === 'turn';
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
  const names = ['straight', 'half-drop', 'drop', 'brick', 'mirror-x', 'mirror-y', 'mirror-xy', 'turn'];
  const near = nearestName(text.trim(), names);
  return new Fault({
    kind: 'usage',
    expected:
      'one of straight, half-drop (drop:1/2), brick (brick:1/2), mirror-x, mirror-y, mirror-xy or turn',
    subject: 'the layout',
    received: `"${text}"`,
    remedy: `${near ? `Did you mean "${near}"? ` : ''}Any drop or brick will do, as in drop:2/5 or brick:1/3.`,
  });
}

/** The largest whole number that divides both. */
export function greatestCommonDivisor(a: number, b: number): number {
  let [m, n] = [Math.abs(a), Math.abs(b)];
  while (n > 0) [m, n] = [n, m % n];
  return m;
}
