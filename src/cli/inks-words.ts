import { hexOfBytes } from '../colour/hex.ts';
import type { InksReport } from '../host/ink/tile-inks.ts';
import type { NearPair } from '../ink/index.ts';
import { formatLayout, type Layout } from '../repeat/layout.ts';
import { formatSize, trimNumber } from '../repeat/length.ts';
import { row } from './row.ts';

/** What is told of how far mixes are off. */
function errorWords({ mean, p95, worst }: InksReport['error']): string {
  return `${trimNumber(mean, 2)} on average, at most ${trimNumber(p95, 1)} in 95 of 100 pixels, ${trimNumber(worst, 1)} at worst (CIEDE2000)`;
}

/** The size of the tile, one line. */
export function sizeWords({ width, height, size }: InksReport): string {
  return size ? `${formatSize(size)}, ${width} x ${height} px` : `${width} x ${height} px`;
}

/** Says what was found. */
export function printInks(picture: string, layout: Layout, report: InksReport): void {
  const { areas, judgement, choice, error, curve, near, notes, size } = report;
  console.log(`${picture} in layout ${formatLayout(layout)}: ${countWords(report)}`);
  row('picture', sizeWords(report));
  row('judged', judgement);
  for (const { count, error: off } of curve)
    row(
      count === report.card.inks.length ? 'chosen' : '',
      `${String(count).padStart(2)} colours: off by ${off.mean.toFixed(2)} on average, ${off.p95.toFixed(1)} at most in 95 of 100 pixels`,
    );
  if (choice) row('choice', choice);
  const widest = Math.max(...areas.map(({ ink }) => ink.name.length));
  areas.forEach(({ ink, share, cm2 }, index) => {
    const percent = `${(100 * share).toFixed(1)} %`.padStart(7);
    const area = cm2 === undefined ? '' : `  ${trimNumber(cm2, 1)} cm2 per repeat`;
    row(index === 0 ? 'inks' : '', `${ink.name.padEnd(widest)}  ${hexOfBytes(ink.colour)} ${percent}${area}`);
  });
  if (!size) row('hint', 'areas in cm2 need a size: add for example --size 320x320mm or --dpi 300');
  row('mixes', `off by ${errorWords(error)}`);
  for (const words of nearWords(near)) row('near', words);
  for (const note of notes) row('note', note);
  const { draw, curvePicture, show, out } = report;
  if (draw) row('drawn', draw);
  if (curvePicture) row('curve', curvePicture);
  if (show) row('shown', `${show} (the redder, the farther off; full red from 10 on)`);
  if (out) row('written', out);
}

/** `8 colours: the ground and 7 inks` */
export function countWords({ card }: Pick<InksReport, 'card'>): string {
  const inks = card.inks.filter(({ kind }) => kind === 'ink').length;
  const screens = inks === 1 ? '1 ink' : `${inks} inks`;
  if (!card.inks.some(({ kind }) => kind === 'ground')) return screens;
  return inks === 0 ? 'the ground alone' : `the ground and ${screens}`;
}

const SEEN = {
  'by all': 'too near to tell apart',
  protan: 'alike to eyes without cones for long waves',
  deutan: 'alike to eyes without cones for middle waves',
  tritan: 'alike to eyes without cones for short waves',
} as const;

/** One line for each pair. */
function nearWords(near: readonly NearPair[]): string[] {
  return near.map(
    ({ inks: [first, second], seen, difference }) =>
      `"${first}" and "${second}": ${SEEN[seen]} (${trimNumber(difference, 1)})`,
  );
}

/** The same for scripts. */
export function inksJson(picture: string, layout: Layout, report: InksReport) {
  const { card, isGiven, judgement, choice, areas, error, curve, near, notes } = report;
  const { width, height, size, sizeFrom, out, draw, curvePicture, show } = report;
  return {
    picture,
    ...{ out, draw, curvePicture, show },
    layout: formatLayout(layout),
    tile: {
      widthPx: width,
      heightPx: height,
      ...(size && { widthMm: size.width, heightMm: size.height, sizeFrom }),
    },
    ...{ card: card.name, isGiven, judgement, choice },
    inks: areas.map(({ ink, share, cm2 }) => ({
      ...{ name: ink.name, kind: ink.kind, colour: hexOfBytes(ink.colour), percent: 100 * share, cm2 },
    })),
    ...{ error, curve, near, notes },
  };
}
