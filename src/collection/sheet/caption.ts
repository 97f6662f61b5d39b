import { formatSize } from '../../repeat/length.ts';
import { gradeOf } from '../disk/unclosed.ts';
import { SEAM_WORDS } from '../page/words.ts';
import { LETTERS, MADDER, QUIET } from './inks.ts';
import type { Weight } from './lettering.ts';
import { sharedWords, withoutShared } from './shared-words.ts';
import { type Swatch, tileOf } from './swatch.ts';

/** A paragraph on a sheet. */
export interface Paragraph {
  readonly text: string;
  /** Of the letters, px. */
  readonly height: number;
  readonly weight: Weight;
  readonly ink: string;
  /** Lines at most; no end where absent. */
  readonly most?: number;
}

/** The smallest letters of a sheet, px: 7.2 pt at the density that it states. */
export const LEAST_LETTERS = 18;
const OWN_LINES = 4;

/** What the captions of a sheet have in common, so that each says only what sets it apart. */
export interface CaptionRules {
  /** Axes on which the sheet's swatches differ. */
  readonly axes: readonly string[];
  /** Words that all its recipes begin with. */
  readonly shared: string;
  /** Settings that an axis does not name and that are a swatch's own. */
  readonly own: (swatch: Swatch) => string;
}

export function captionRules(
  swatches: readonly Swatch[],
  axes: readonly string[],
  own: CaptionRules['own'],
): CaptionRules {
  const recipes = new Set(swatches.flatMap(({ labels }) => labels.recipe ?? []));
  return { axes, shared: sharedWords([...recipes]), own };
}

/** What stands under a swatch: first, and never cut, what tells it from the others of its sheet. */
export function captionOf(swatch: Swatch, rules: CaptionRules): Paragraph[] {
  const { labels, name, address, made } = swatch;
  const values = rules.axes.filter((axis) => axis !== 'tile' && labels[axis] !== undefined);
  const recipe = values.includes('recipe') ? withoutShared(labels.recipe, rules.shared) : undefined;
  const others = values
    .filter((axis) => axis !== 'recipe')
    .map((axis) => `${axisWord(axis, rules.axes)} ${labels[axis]}`);
  const words = [recipe, others.join(', ')].filter((one) => one);
  const [title, ...rest] = words.length > 0 ? words : [labels.recipe ?? name];
  const grade = made ? gradeOf(made.seams) : 'closes';
  const tile = rules.axes.includes('tile') ? tileOf(swatch) : '';
  return [
    titled(title!),
    ...rest.map((text) => plain(text!, 20, LETTERS)),
    plain(SEAM_WORDS[grade], LEAST_LETTERS, MADDER),
    plain([tile, address.slice(0, 8)].filter(Boolean).join(', '), LEAST_LETTERS, QUIET),
    { ...plain(rules.own(swatch), LEAST_LETTERS, QUIET), most: OWN_LINES },
  ].filter(({ text }) => text !== '');
}

/** What stands under the artwork itself. */
export function originalCaption(swatch: Swatch, { axes }: CaptionRules): Paragraph[] {
  const title = titled('Artwork without texture');
  return axes.includes('tile') ? [title, plain(tileOf(swatch), 20, LETTERS)] : [title];
}

/** A parameter goes by its own name where no other effect's has the same. */
function axisWord(axis: string, axes: readonly string[]): string {
  const short = axis.slice(axis.lastIndexOf('.') + 1);
  return axes.filter((one) => one === short || one.endsWith(`.${short}`)).length > 1 ? axis : short;
}

function titled(text: string): Paragraph {
  return { text, height: 22, weight: 500, ink: LETTERS };
}

function plain(text: string, height: number, ink: string): Paragraph {
  return { text, height, weight: 400, ink };
}

/** What is true of a tile in all its variants, as far as it is known. */
export function tileFacts(swatches: readonly Swatch[]): string {
  const facts = swatches.map(({ made, inputs }) => {
    const { layout, widthMm, heightMm } = made?.picture ?? inputs?.repeat ?? {};
    return layout && widthMm && heightMm
      ? `${formatSize({ width: widthMm, height: heightMm })}, ${layout}`
      : '';
  });
  const different = [...new Set(facts.filter(Boolean))];
  return different.length === 1 ? different[0] : '';
}

/** What all of some swatches have alike, the tile aside: `recipe linen-weave, opacity 1`. */
export function alikeWords(swatches: readonly Swatch[], axes: readonly string[]): string {
  const [first] = swatches;
  return Object.entries(first?.labels ?? {})
    .filter(([axis]) => axis !== 'tile' && !axes.includes(axis))
    .map(([axis, value]) => `${axis} ${value}`)
    .join(', ');
}

/** The tile's name as a heading. */
export function headingOf(swatch: Swatch): string {
  return tileOf(swatch) || 'Swatches without a record';
}
