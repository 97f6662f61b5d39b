import type { Report } from '../effect/effect.ts';
import type { RenderReport } from '../host/lay-tile.ts';
import type { RenderStep } from '../render/step.ts';
import { formatLayout } from '../repeat/layout.ts';
import { formatDensity, formatSize, trimNumber } from '../repeat/length.ts';

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
    for (const figure of report.reports[index]) row('', describeFigure(figure));
  });
  row('seams', seams.summary);
  for (const note of report.notes) row('note', note);
  const seconds = Object.values(timings).reduce((sum, ms) => sum + ms, 0) / 1000;
  row('written', `${report.out} (${trimNumber(report.bytes / 1e6, 1)} MB, ${trimNumber(seconds, 1)} s)`);
  for (const warning of report.warnings) console.error(`tenter: warning: ${warning}`);
}

function row(label: string, text: string): void {
  console.log(`  ${label.padEnd(8)} ${text}`);
}

function describeStep({ effect, preset, opacity, blend, order }: RenderStep): string {
  const share = opacity < 1 ? `, opacity ${opacity}` : '';
  const mode = blend === 'normal' ? '' : `, ${blend}`;
  return `${effect}${preset ? ` (${preset})` : ''}, seed ${order.seed}${mode}${share}`;
}

function describeFigure({ name, value, unit, asked }: Report): string {
  const number = typeof value === 'number' ? trimNumber(value, 3) : value;
  const suffix = unit && unit !== 'count' && unit !== 'ratio' ? ` ${unit}` : '';
  const wanted = asked !== undefined && asked !== value ? ` (asked ${asked})` : '';
  return `${name} ${number}${suffix}${wanted}`;
}

function renderFacts({ report, steps, seed }: RenderPrint) {
  const { grid, quality, seams, out, bytes, notes, warnings, timings } = report;
  return {
    out,
    bytes,
    seed,
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
      reports: report.reports[index],
    })),
    seams,
    notes,
    warnings,
    milliseconds: timings,
  };
}
