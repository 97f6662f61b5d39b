import {
  type ClosingLayout,
  checkRepeat,
  drawRing,
  farSheet,
  type MainColour,
  mainColours,
  type RepeatReport,
  repeatSheet,
  type SeamReport,
} from '../inspect/index.ts';
import {
  type Picture,
  readPicture,
  refuseInputs,
  refuseOverwrite,
  refuseTwins,
  writePicture,
} from '../picture/index.ts';
import type { Layout } from '../repeat/layout.ts';
import type { Size } from '../repeat/length.ts';
import { openSeamEyes } from './seam-eyes.ts';

export interface CheckRequest {
  readonly picture: string;
  readonly layout: Layout;
  /** mm of one tile, so that places are also told in mm. */
  readonly size?: Size;
  /** Where to write the tile in repeat with the worst place ringed. */
  readonly sheet?: string;
  /** Where to write the repeat as seen from afar, with what will line up ringed. */
  readonly afar?: string;
  readonly overwrite?: boolean;
}

export interface PictureReport {
  readonly seams: SeamReport;
  readonly repeat: RepeatReport;
  /** Common layouts that it closes over, where it is open over the one asked; those with mirror lines last. */
  readonly closesOver: readonly ClosingLayout[];
  /** Its main colours over white, largest first: what a mask by colour can name. */
  readonly colours: readonly MainColour[];
  readonly sheet?: string;
  readonly afar?: string;
}

const TILES_ON_SHEET = 3;
const SHEET_SIDE = 1500;

/**
 * Checks whether a picture closes over a layout and whether its repeat shows from afar.
 *
 * @throws Fault (input, output or usage).
 */
export async function checkPicture(request: CheckRequest): Promise<PictureReport> {
  const outs = [request.sheet, request.afar].filter((path) => path !== undefined);
  await refuseTwins(outs);
  for (const path of outs) {
    await refuseInputs(path, [request.picture]);
    await refuseOverwrite(path, request.overwrite);
  }
  const read = await readPicture(request.picture);
  const picture = { ...read, isOpaque: read.transparent ? undefined : true };
  const { width, height, pixelsPerMm } = picture;
  const mmPerPixelX = request.size ? request.size.width / width : pixelsPerMm && 1 / pixelsPerMm;
  const mmPerPixelY = request.size ? request.size.height / height : pixelsPerMm && 1 / pixelsPerMm;
  const eyes = openSeamEyes(width * height);
  try {
    const seeing = eyes.check(picture, request.layout, { mmPerPixelX, mmPerPixelY });
    // Whoever awaits it hears of a failure; until then it must not end the process.
    seeing.catch(() => {});
    const repeat = checkRepeat(picture);
    const colours = mainColours(picture);
    const seams = await seeing;
    const closesOver = seams.closes ? [] : await eyes.closing(picture);
    await writeSheets(picture, request, seams, repeat);
    return { seams, repeat, closesOver, colours, sheet: request.sheet, afar: request.afar };
  } finally {
    await eyes.close();
  }
}

async function writeSheets(
  picture: Picture,
  request: CheckRequest,
  seams: SeamReport,
  repeat: RepeatReport,
): Promise<void> {
  if (request.sheet) {
    const shape = { columns: TILES_ON_SHEET, rows: TILES_ON_SHEET, maxSide: SHEET_SIDE };
    const sheet = repeatSheet(picture, request.layout, shape);
    if (seams.grade !== 'closes' && seams.worst) ringWorst(sheet, seams);
    await writePicture(request.sheet, sheet, { overwrite: request.overwrite });
  }
  if (request.afar) {
    const sheet = farSheet(picture, request.layout, repeat);
    await writePicture(request.afar, sheet, { overwrite: request.overwrite });
  }
}

/** Rings the fault, or the place to look at, on the first tile, which no layout moves; its edge towards the next tile is inside the sheet. */
function ringWorst(sheet: ReturnType<typeof repeatSheet>, { worst }: SeamReport): void {
  const { x, y, from, to } = worst!.place;
  const radius = Math.min(sheet.width / 5, Math.max(26, ((to - from) / 2) * sheet.scale + 14));
  drawRing(sheet, { x: x * sheet.scale, y: y * sheet.scale, radius });
}
