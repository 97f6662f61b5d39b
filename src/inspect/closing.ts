import { pixelStep } from '../repeat/grid.ts';
import { formatLayout, type Layout, parseLayout } from '../repeat/layout.ts';
import { judge, levelsOf } from './check.ts';
import { type Grade, worstGrade } from './grade.ts';
import { type InspectedPicture, requirePicture } from './inspected-picture.ts';
import { LEAST_DEPTH, type Level } from './level.ts';
import { type Seam, seamsOf } from './seam.ts';
import { openSource, type Source } from './strip.ts';

/** A layout that a picture may be meant for. */
export interface ClosingLayout {
  readonly layout: Layout;
  /** `closes`, or `look` where a person should look. */
  readonly grade: Exclude<Grade, 'open'>;
}

/** The likelier first; those with mirror lines last, where a cut is easily missed. */
const TRIED: readonly Layout[] = [
  ...['straight', 'drop:1/2', 'brick:1/2', 'drop:1/3', 'drop:2/3', 'brick:1/3', 'brick:2/3'],
  ...['drop:1/4', 'drop:3/4', 'brick:1/4', 'brick:3/4', 'turn', 'mirror-x', 'mirror-y', 'mirror-xy'],
].map(parseLayout);

/** px. Larger pictures take too long, and too much memory, for a hint. */
const MOST_TRIED = 64e6;

/**
 * Over which of the common layouts a picture closes, the likelier first; as `checkSeams` would say of each,
 * for the price of two or three checks, since layouts share their seams. Those that close come before
 * those that want a look. Layouts whose offset misses whole pixels are passed over.
 *
 * @returns Nothing too for a picture of more than 64 megapixels, or too small to be judged.
 * @throws Fault (input) where the samples do not fit the size.
 */
export function closingLayouts(picture: InspectedPicture): ClosingLayout[] {
  requirePicture(picture);
  const { width, height } = picture;
  if (width * height > MOST_TRIED || Math.min(width, height) < LEAST_DEPTH) return [];
  const gradeOf = openGrader(openSource(picture));
  const graded = TRIED.filter((layout) => fits(layout, width, height)).map((layout) => ({
    layout,
    grade: worstOf(seamsOf(layout, width, height), gradeOf),
  }));
  return (['closes', 'look'] as const).flatMap((grade) =>
    graded.filter((one) => one.grade === grade).map(({ layout }) => ({ layout, grade })),
  );
}

/** So many layouts are named in a hint. */
const MOST_NAMED = 3;

/**
 * What to tell of a picture that does not close over the layout that was asked: `it closes over drop:1/2`.
 * Nothing where it closes over none of the common ones.
 */
export function closingHint(found: readonly ClosingLayout[]): string | undefined {
  const closing = found.filter(({ grade }) => grade === 'closes').map(({ layout }) => layout);
  const plain = closing.filter((layout) => !hasMirror(layout));
  if (plain.length > 0) return `it closes over ${namesOf(plain)}`;
  if (closing.length === 0) return undefined;
  return `it shows no edge over ${namesOf(closing)}, but at mirror lines a cut is easily missed`;
}

/** True for layouts with mirror lines, where a cut leaves no more than a crease. */
export function hasMirror({ kind }: Layout): boolean {
  return kind.startsWith('mirror');
}

function namesOf(layouts: readonly Layout[]): string {
  return layouts.slice(0, MOST_NAMED).map(formatLayout).join(' and over ');
}

function fits(layout: Layout, width: number, height: number): boolean {
  const { across, down } = pixelStep(layout);
  return width % across === 0 && height % down === 0;
}

/** Where one seam is open, the others need not be looked at. */
function worstOf(seams: readonly Seam[], gradeOf: (seam: Seam) => Grade): Grade {
  let worst: Grade = 'closes';
  for (const seam of seams) {
    worst = worstGrade([worst, gradeOf(seam)]);
    if (worst === 'open') break;
  }
  return worst;
}

/** What is known of the inside, and of every seam, is found out once. */
function openGrader(source: Source): (seam: Seam) => Grade {
  const levels = new Map<string, Level[]>();
  const grades = new Map<string, Grade>();
  return (seam) => {
    const turned = seam.how === 'turned';
    const inside = remembered(levels, `${seam.axis} ${turned}`, () =>
      levelsOf(source, seam.axis, { turned, kin: [] }),
    );
    return remembered(grades, JSON.stringify(seam), () => judge(seam, inside, source, {}).grade);
  };
}

function remembered<T>(known: Map<string, T>, key: string, find: () => T): T {
  const value = known.get(key) ?? find();
  known.set(key, value);
  return value;
}
