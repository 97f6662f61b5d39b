import type { CloseFacts, CloseReport, CloseRequest } from '../host/close-file.ts';
import type { WayPlan } from '../join/index.ts';
import { formatLayout } from '../repeat/layout.ts';
import { formatSize, trimNumber } from '../repeat/length.ts';
import { formatBytes } from './figures.ts';
import { row } from './row.ts';

/** The light of a scan is worth a word where the brightest is so many times the darkest. */
const UNEVEN = 1.15;

/** Says before it is done what will be: how large, and where it is worked on. */
export function printPlan({ picture, layout, keepSize, evenLight }: CloseRequest, facts: CloseFacts): void {
  const { plan, light } = facts;
  console.log(`${picture} in layout ${formatLayout(layout)}`);
  row('picture', sizeWords(facts, facts.picture.width, facts.picture.height));
  if (evenLight)
    row(
      'light',
      light.isEven
        ? 'even already: nothing is divided out'
        : `the brightest is ${timesOf(light.range)} times the darkest: divided out, which changes the whole picture`,
    );
  if (!plan) {
    row(
      'closed',
      `it closes already${evenLight && !light.isEven ? ' once the light is even' : ': nothing is changed'}`,
    );
    return;
  }
  row(
    'tile',
    `will be ${sizeWords(facts, plan.width, plan.height)}${keepSize ? ', grown from the painting itself' : ''}`,
  );
  for (const way of plan.ways) row('strip', stripWords(way, facts));
  if (!evenLight && light.range > UNEVEN)
    row(
      'hint',
      `the light seems uneven, the brightest ${timesOf(light.range)} times the darkest: --even-light divides it out, if it is not meant`,
    );
}

function stripWords({ way, overlap, farOverlap, growth }: WayPlan, { mmPerPixel }: CloseFacts): string {
  const name = way === 'x' ? 'the left edge' : 'the top edge';
  const other = way === 'x' ? 'the right' : 'the bottom';
  const length = (px: number) =>
    mmPerPixel ? `${trimNumber(px * mmPerPixel[way], 1)} mm (${px} px)` : `${px} px`;
  if (farOverlap !== undefined)
    return `${length(growth ? overlap : overlap / 2)} at the left edge and ${length(growth ? overlap : farOverlap / 2)} at the right, each closed with itself turned`;
  return growth
    ? `${length(overlap)} at ${name} and as much at ${other}`
    : `${length(overlap)} at ${name}, where the copies overlap`;
}

/** Says what was done. */
export function printReport(report: CloseReport): void {
  const { change, seams, notes, warnings, timings, out, show, bytes } = report;
  if (change)
    row(
      'changed',
      `${percent(change.share)} of the pixels, all within the strips (${percent(change.strips)} of the tile); there by a colour difference of ${trimNumber(change.mean, 1)} on average, 95 of 100 by at most ${trimNumber(change.p95, 1)}`,
    );
  row('seams', seams.summary);
  if (!seams.closes) row('hint', 'give the cut more room with --within, or show more of the painting');
  for (const note of notes) row('note', note);
  if (show !== undefined) row('shown', show);
  const seconds = Object.values(timings).reduce((sum, ms) => sum + ms, 0) / 1000;
  row('written', `${out} (${formatBytes(bytes)}, ${trimNumber(seconds, 1)} s)`);
  for (const warning of warnings) console.error(`tenter: warning: ${warning}`);
}

/** The same for scripts. */
export function closeJson(
  { picture, layout, keepSize = false, evenLight = false }: CloseRequest,
  report: CloseReport,
) {
  const { plan, closed, change, seams, notes, warnings, timings, out, show, bytes, light, width, height } =
    report;
  const { mmPerPixel, sizeFrom } = report;
  return {
    picture,
    out,
    show,
    bytes,
    layout: formatLayout(layout),
    closedAlready: plan === undefined,
    keepSize,
    pictureSize: { widthPx: report.picture.width, heightPx: report.picture.height },
    tile: {
      widthPx: width,
      heightPx: height,
      ...(mmPerPixel && { widthMm: width * mmPerPixel.x, heightMm: height * mmPerPixel.y, sizeFrom }),
    },
    from: closed?.from,
    strips: closed?.strips,
    change,
    light: { range: light.range, divided: evenLight && !light.isEven },
    seams,
    notes,
    warnings,
    milliseconds: timings,
  };
}

function sizeWords({ mmPerPixel }: CloseFacts, width: number, height: number): string {
  const pixels = `${width} x ${height} px`;
  if (!mmPerPixel) return pixels;
  return `${formatSize({ width: width * mmPerPixel.x, height: height * mmPerPixel.y })}, ${pixels}`;
}

function timesOf(range: number): string {
  return trimNumber(range, 2);
}

function percent(share: number): string {
  return `${trimNumber(100 * share, 1)} %`;
}
