import type { Command } from 'commander';
import { Fault } from '../fault.ts';
import {
  type CloseFacts,
  type CloseReport,
  type CloseRequest,
  closeFile,
  type StripWidth,
} from '../host/close-file.ts';
import type { Layout } from '../repeat/layout.ts';
import { millimetresOf, parseDensity, parseSize, type Size } from '../repeat/length.ts';
import { closeJson, printPlan, printReport } from './close-words.ts';
import { EXIT } from './exit-codes.ts';
import { jsonOption, layoutOption } from './options.ts';
import { outputPath } from './output-path.ts';
import { runLong } from './run-long.ts';

interface CloseFlags {
  readonly layout: Layout;
  readonly size?: Size;
  readonly dpi?: number;
  readonly within?: StripWidth;
  readonly keepSize?: boolean;
  readonly evenLight?: boolean;
  readonly out?: string;
  readonly show?: string;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter close scan.tif --layout half-drop
  tenter close scan.tif --layout half-drop --within 12mm --show where.png
  tenter close swatch.png --layout brick:1/3 --size 210x297mm --keep-size --even-light

The picture is laid over its own copies and cut where that shows least, round motifs rather than through them; then
tone is evened along the cut. Only a strip at each edge is worked on: what lies outside stays bit for bit. A strip
wider than the motifs are long (--within 50mm) leaves the cut room to pass between them. The tile is smaller by what
copies overlap; --keep-size grows that much from the painting itself instead. A scan that is brighter at one side than
at the other closes better with --even-light, which changes the whole picture.
A picture that closes already is written as it is.`;

/** Adds `tenter close`. */
export function addClose(program: Command): void {
  program
    .command('close')
    .description(
      'Makes a painting or tile that does not close over its layout close, by as little change as can be.',
    )
    .argument('<picture>', 'the painting: PNG, JPEG, WebP or TIFF')
    .addOption(layoutOption())
    .option('--size <size>', 'size of the picture, e.g. 210x297mm', parseSize)
    .option('--dpi <density>', 'pixel density of the picture, e.g. 300dpi', parseDensity)
    .option(
      '--within <width>',
      'work on strips no wider than this, e.g. 12mm or 140px; default an eighth of the shorter side, at most 25 mm',
      parseWithin,
    )
    .option('--keep-size', 'keep the size: grow what the overlap takes from the painting itself')
    .option('--even-light', 'first divide uneven light of the scan out of the whole picture')
    .option('--out <file>', 'where to write; .png, .tif or .tiff, or .jpg for a proof')
    .option('--show <file>', 'draw where it was cut and worked on')
    .option('--overwrite', 'replace these files if they are there')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action((picture: string, flags: CloseFlags) => close(picture, flags));
}

async function close(picture: string, flags: CloseFlags): Promise<void> {
  const { layout, size, dpi: density, within, keepSize, evenLight, show, overwrite, json } = flags;
  const out = outputPath(flags.out, picture, { target: 'closed', seed: '1' });
  const request: CloseRequest = {
    ...{ picture, layout, size, density, within, keepSize, evenLight, out, show, overwrite },
  };
  const onFacts = (facts: CloseFacts) => {
    if (!json) printPlan(request, facts);
  };
  const report: CloseReport = await runLong({ json }, (progress) =>
    closeFile(request, { ...progress, onFacts }),
  );
  if (json) console.log(JSON.stringify(closeJson(request, report), null, 2));
  else printReport(report);
  process.exitCode = report.seams.closes ? EXIT.ok : EXIT.open;
}

function parseWithin(text: string): StripWidth {
  const pixels = /^(\d+)\s*px$/.exec(text.trim().toLowerCase());
  if (pixels) return { px: Number(pixels[1]) };
  const mm = millimetresOf(text);
  if (mm !== undefined) return { mm };
  throw new Fault({
    kind: 'usage',
    expected: 'a width with its unit (mm, cm, in or px)',
    subject: '--within',
    received: `"${text}"`,
    remedy: 'Write for example 12mm or 140px.',
  });
}
