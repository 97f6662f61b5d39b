import type { Report } from '../effect/effect.ts';
import { writtenValue } from '../effect/value.ts';
import type { ByHand } from '../host/by-hand.ts';
import { screenRows } from '../host/ink/screen-words.ts';
import type { RenderReport } from '../host/lay-tile.ts';
import { wordsOfLight } from '../render/light-words.ts';
import { wordsOfShare } from '../render/mask-words.ts';
import type { RenderStep } from '../render/step.ts';
import { formatLayout } from '../repeat/layout.ts';
import { formatDensity, formatSize, trimNumber } from '../repeat/length.ts';
import { hintsFor } from './hints.ts';
import { row } from './row.ts';

const SIZE_WORDS: Readonly<Record<RenderReport['sizeFrom'], string>> = {
  given: '',
  'given density': '; size from --dpi',
  file: '; size from the density that the file states',
};

export interface RenderPrint {
  readonly title: string;
  readonly steps: readonly RenderStep[];
  readonly seed: string;
  readonly report: RenderReport;
  readonly json?: boolean;
}

/** Prints what a render made: words to stdout and warnings to stderr, or one JSON object. */
export function printRender(print: RenderPrint): void {
  if (print.json) {
    console.log(JSON.stringify(renderFacts(print), null, 2));
    return;
  }
  const { report, steps } = print;
  const { grid, seams, timings } = report;
  console.log(print.title);
  row(
    'repeat',
    `${formatSize(grid.repeat)}, ${formatLayout(grid.repeat.layout)}${SIZE_WORDS[report.sizeFrom]}`,
  );
  row('pixels', `${grid.tileWidth} x ${grid.tileHeight} at ${formatDensity(1 / grid.mmPerPixelX)}`);
  steps.forEach((step, index) => {
    row(index === 0 ? 'laid' : 'then', describeStep(step));
    const share = report.laidOn[index];
    if (share !== undefined) row('', wordsOfShare(share));
    for (const figure of report.reports[index]) row('', describeFigure(figure));
  });
  if (report.light) row('light', wordsOfLight(report.light));
  row('seams', seams.summary);
  if (report.screened) for (const words of screenRows(report.screened)) row('inks', words);
  for (const hint of hintsFor(report)) row('hint', hint);
  for (const note of report.notes) row('note', note);
  const seconds = Object.values(timings).reduce((sum, ms) => sum + ms, 0) / 1000;
  if (report.byHand) printByHand(report.byHand);
  const files = report.byHand?.layers.map(({ file }) => file).join(', ') ?? report.out;
  row('written', `${files} (${trimNumber(report.bytes / 1e6, 1)} MB, ${trimNumber(seconds, 1)} s)`);
  for (const warning of report.warnings) console.error(`tenter: warning: ${warning}`);
}

/** Lowest first, as they are laid. */
function printByHand({ layers, again }: ByHand): void {
  layers.forEach(({ file, mode, holds }, index) => {
    row(index === 0 ? 'lay' : 'then', `${file} in blend mode ${mode}: ${holds}`);
  });
  const { mean, p95, largest, beyond4, at, over } = again;
  row(
    'by hand',
    `laid again over a ramp of artwork colours it is off by ${trimNumber(mean, 2)} of 255 on average, 95 % of values by at most ${p95}, the largest by ${largest} (over ${over}, ${trimNumber(at.x, 1)} mm across and ${trimNumber(at.y, 1)} mm down); ${trimNumber(beyond4 * 100, 2)} % by more than 4`,
  );
}

function describeStep({ effect, preset, opacity, blend, order }: RenderStep): string {
  const share = opacity < 1 ? `, opacity ${writtenValue(opacity)}` : '';
  const mode = blend === 'normal' ? '' : `, ${blend}`;
  return `${effect}${preset ? ` (${preset})` : ''}, seed ${order.seed}${mode}${share}`;
}

function describeFigure({ name, value, unit, asked }: Report): string {
  const [came, wish] = [value, asked ?? value].map((figure) =>
    typeof figure === 'number' ? trimNumber(figure, 3) : figure,
  );
  const suffix = unit && unit !== 'count' && unit !== 'ratio' ? ` ${unit}` : '';
  const wanted = wish === came ? '' : ` (asked ${wish})`;
  return `${name} ${came}${suffix}${wanted}`;
}

function renderFacts({ report, steps, seed }: RenderPrint) {
  const { grid, quality, seams, out, bytes, notes, warnings, timings } = report;
  return {
    out: report.byHand ? report.byHand.layers.map(({ file }) => file) : out,
    bytes,
    layers: report.byHand?.layers,
    layersAgain: report.byHand?.again,
    seed,
    light: report.light,
    quality,
    repeat: {
      layout: formatLayout(grid.repeat.layout),
      widthMm: grid.repeat.width,
      heightMm: grid.repeat.height,
      sizeFrom: report.sizeFrom,
      widthPx: grid.tileWidth,
      heightPx: grid.tileHeight,
      dpi: { x: 25.4 / grid.mmPerPixelX, y: 25.4 / grid.mmPerPixelY },
    },
    steps: steps.map(({ effect, version, preset, order, blend, opacity, mask }, index) => ({
      effect,
      version,
      preset,
      seed: order.seed,
      parameters: order.parameters,
      blend,
      opacity,
      mask,
      laidOn: report.laidOn[index],
      reports: report.reports[index],
    })),
    screens: report.screened,
    seams,
    notes,
    warnings,
    milliseconds: timings,
  };
}
