import sharp from 'sharp';
import { checkSeams } from '../../src/inspect/check.ts';
import { worstGrade } from '../../src/inspect/grade.ts';
import type { InspectedPicture } from '../../src/inspect/inspected-picture.ts';
import { formatLayout } from '../../src/repeat/layout.ts';
import type { Case } from './cases.ts';
import { toBytes } from './faults.ts';

/** How often the seam check was wrong about one sort of picture. */
export interface Rate {
  readonly tried: number;
  readonly wrong: number;
  /** Of the others, how many were left to a person to look at. */
  readonly looked: number;
  /** Kind and layout of each it was wrong about. */
  readonly which: readonly string[];
}

export async function pictureOf({ picture, jpeg }: Case): Promise<InspectedPicture> {
  const bytes = toBytes(picture);
  if (!jpeg) return bytes;
  const { width, height } = bytes;
  const encoded = await sharp(bytes.pixels, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .jpeg({ quality: jpeg.quality, chromaSubsampling: jpeg.subsampling })
    .toBuffer();
  const decoded = await sharp(encoded).ensureAlpha().raw().toBuffer();
  return { pixels: new Uint8Array(decoded), width, height };
}

/**
 * Checks every case: a closed picture is wrong where it is called open, an open one where none of the edges
 * that are open is named as such or as one to look at.
 */
export async function ratesOf(cases: Iterable<Case>): Promise<Map<string, Rate>> {
  const rates = new Map<string, { tried: number; wrong: number; looked: number; which: string[] }>();
  for (const one of cases) {
    const report = checkSeams(await pictureOf(one), one.layout);
    const { kind } = one.layout;
    const way = kind.startsWith('mirror') ? ', mirrored' : kind === 'turn' ? ', turned' : '';
    const name = one.closes ? (one.jpeg ? 'closed, JPEG' : 'closed') : `${one.fault}${way}`;
    const rate = rates.get(name) ?? { tried: 0, wrong: 0, looked: 0, which: [] };
    rates.set(name, rate);
    rate.tried++;
    const named = report.edges.filter(({ edge }) => one.openAt?.includes(edge as 'right'));
    const grade = one.closes ? report.grade : worstGrade(named.map((edge) => edge.grade));
    if (grade === 'look') rate.looked++;
    if (grade === 'look' || grade === (one.closes ? 'closes' : 'open')) continue;
    rate.wrong++;
    rate.which.push(`${one.kind} ${formatLayout(one.layout)}`);
  }
  return rates;
}

/** The rates as lines of a table, the most telling kinds behind each. */
export function tableOf(rates: ReadonlyMap<string, Rate>): string {
  const lines = [...rates].map(([name, { tried, wrong, looked, which }]) => {
    const counts = new Map<string, number>();
    for (const one of which) counts.set(one, (counts.get(one) ?? 0) + 1);
    const share = (part: number) => ((100 * part) / tried).toFixed(1).padStart(5);
    return `${name.padEnd(48)} ${String(tried).padStart(4)} tried, wrong ${share(wrong)} %, to be looked at ${share(looked)} %  ${[...counts.keys()].slice(0, 5).join(', ')}`;
  });
  return lines.join('\n');
}
