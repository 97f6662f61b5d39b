import { mkdir, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { canonicalJson, sha256 } from '../collection/index.ts';
import type { Frame } from '../colour/frame.ts';
import { Fault } from '../fault.ts';
import { packageVersion } from '../host/code/root.ts';
import { cardText } from '../host/ink/card-file.ts';
import { cardInColourway } from '../host/ink/screens.ts';
import { PLATES_JSON, writePlates } from '../host/ink/write-plates.ts';
import type { RenderProgress } from '../host/lay-tile.ts';
import { findEffect, type Shelf } from '../host/plugins/shelf.ts';
import { printedInks, type ShadeCard } from '../ink/index.ts';
import { reasonOf, unwritable } from '../picture/faults.ts';
import { INTENT, type OutputProfile, writeInProfile } from '../picture/in-profile.ts';
import { sha256OfFile, writePicture } from '../picture/index.ts';
import { partName, sweepPartFolders, sweepParts } from '../picture/litter.ts';
import { makeFolder, removeFolders } from '../picture/make-folder.ts';
import { isOpaque } from '../picture/opaque.ts';
import type { Grid } from '../repeat/grid.ts';
import { formatLayout } from '../repeat/layout.ts';
import { trimNumber } from '../repeat/length.ts';
import { cautionsFor } from './cautions.ts';
import type { Design } from './design.ts';
import type { ColourwayFacts, FileFacts, ParcelFacts } from './facts.ts';
import { inkFacts } from './ink-areas.ts';
import { takeApart } from './layers.ts';
import { writeOpenRaster } from './open-raster.ts';
import { FACTS_FILE, putParcel, refuseStanding, standingOfParcel } from './place.ts';
import { readMe } from './read-me.ts';
import { stepFacts } from './recipe-words.ts';
import { type RenderedDesign, renderDesign } from './render-design.ts';
import type { Paper } from './sheet/page.ts';
import { sheetPictures } from './sheet/pictures.ts';
import { strikeOffSheet } from './sheet/strike-off.ts';
import { writeZip } from './zip.ts';

/** How parcels are made. */
export interface ParcelWish {
  /** That they are put into. */
  readonly folder: string;
  readonly isZip: boolean;
  readonly format: 'tif' | 'png';
  readonly paper: Paper;
  readonly profile?: OutputProfile;
  readonly card?: ShadeCard;
  /** Plates of the card's inks as well. */
  readonly plates?: { readonly bits: 1 | 8; readonly trap?: number; readonly overprint?: readonly string[] };
  readonly colourways: readonly ColourwayFacts[];
  readonly overwrite: boolean;
}

export interface Parcel {
  readonly path: string;
  /** False where it was there already, from the very inputs. */
  readonly isNew: boolean;
  readonly facts?: ParcelFacts;
}

/** Counts up whenever the same inputs would make another parcel. */
const FORM = 1;

/**
 * Makes the parcel of a design: all of it beside, under its name at the end. One that is there already, from the same
 * inputs, is left as it is.
 *
 * @throws Fault of any kind; nothing is then under the name but what was there before.
 */
export async function makeParcel(
  design: Design,
  asked: ParcelWish,
  shelf: Shelf,
  progress: RenderProgress = {},
): Promise<Parcel> {
  const wish = { ...asked, card: cardOf(design, asked) };
  const address = addressOf(design, wish);
  const path = join(wish.folder, wish.isZip ? `${design.name}.zip` : design.name);
  const standing = await standingOfParcel(path, address, wish.isZip);
  if (standing === 'made') return { path, isNew: false };
  refuseStanding(path, standing, wish.overwrite);
  const made = await makeFolder(wish.folder);
  await sweepParts(wish.folder);
  await sweepPartFolders(wish.folder);
  const staging = join(wish.folder, partName());
  try {
    await mkdir(staging).catch((cause) => {
      throw unwritable(wish.folder, cause);
    });
    const facts = await fill(staging, { design, wish, shelf, address, progress });
    stopIfAsked(path, progress.signal);
    const whole = wish.isZip ? await zipped(staging, facts) : staging;
    await putParcel(whole, path, standing);
    return { path, isNew: true, facts };
  } catch (cause) {
    throw Fault.is(cause) ? cause : faultOf(path, cause);
  } finally {
    await rm(staging, { recursive: true, force: true });
    await rm(`${staging}.zip`, { force: true });
    await removeFolders(made);
  }
}

/** The card that the print is made of: in its colourway, and that of its screens where none is given. */
function cardOf({ inks, screens }: Design, { card }: ParcelWish): ShadeCard | undefined {
  return card ? cardInColourway(card, inks) : screens?.card;
}

/** A failed call of the system is told in words; anything else is a fault of ours. */
function faultOf(path: string, cause: unknown): unknown {
  const { code, syscall } = cause as NodeJS.ErrnoException;
  return code !== undefined && syscall !== undefined ? unwritable(path, cause, reasonOf(cause)) : cause;
}

function addressOf({ inputs, name }: Design, wish: ParcelWish): string {
  const { isZip, format, paper, profile, card, plates, colourways } = wish;
  return sha256(
    canonicalJson({
      ...{ form: FORM, tenter: packageVersion, name, inputs, isZip, format, paper, plates, colourways },
      profile: profile && sha256(profile.bytes),
      card: card && cardText(card),
      hour: process.env.SOURCE_DATE_EPOCH,
    }),
  );
}

interface Filling {
  readonly design: Design;
  readonly wish: ParcelWish;
  readonly shelf: Shelf;
  readonly address: string;
  readonly progress: RenderProgress;
}

async function fill(folder: string, filling: Filling): Promise<ParcelFacts> {
  const { design, wish, progress } = filling;
  const scratch = join(folder, 'scratch.png');
  const rendered = await renderDesign(design, scratch, progress);
  await rm(scratch, { force: true });
  stopIfAsked(folder, progress.signal);
  progress.onProgress?.(1, 'packing');
  const print = `${design.name}-print.${wish.format}`;
  await writePrint(join(folder, print), rendered, wish.profile);
  const files = [await fileFacts(folder, print, printWords(design, wish))];
  const layers = await writeLayers(folder, design, rendered);
  if (layers) files.push(await fileFacts(folder, layers.file, LAYERS));
  if (wish.card) {
    const card = `${design.name}-card.json`;
    await writeFile(join(folder, card), cardText(wish.card));
    files.push(
      await fileFacts(folder, card, 'The shade card: inks in the order of printing, and the ground.'),
    );
  }
  const warnings = await addPlates(folder, filling, rendered, files);
  stopIfAsked(folder, progress.signal);
  const known = knownFacts(filling, rendered, print, layers);
  const facts: ParcelFacts = {
    ...known,
    cautions: [...[...rendered.warnings, ...warnings].map(sentence), ...cautionsFor(known)],
    files,
  };
  const pictures = await sheetPictures(rendered.print, rendered.grid, wish.paper, folder);
  const sheet = `${design.name}-strike-off.pdf`;
  await writeFile(join(folder, sheet), await strikeOffSheet(facts, pictures, wish.paper));
  files.push(await fileFacts(folder, sheet, SHEET));
  await writeFile(join(folder, 'README.txt'), readMe(facts));
  files.push(await fileFacts(folder, 'README.txt', 'What is in the parcel, in plain words.'));
  await writeFile(join(folder, FACTS_FILE), `${JSON.stringify(facts, null, 2)}\n`);
  return facts;
}

const LAYERS =
  'OpenRaster, for picture editors: the artwork and each texture as a layer in its blend mode. To work on, not to print from.';
const SHEET =
  'The strike-off sheet: the print at its real size, its measures, inks and cautions. To look at, not to print cloth from.';

function printWords({ grid }: Design, { profile, format }: ParcelWish): string {
  const kind = format === 'tif' ? 'TIFF' : 'PNG';
  const tile =
    grid.repeat.layout.kind.startsWith('mirror') || grid.repeat.layout.kind === 'turn' ? 'tile' : 'repeat';
  return `The print: one ${tile}, ${kind}, ${profile ? `${profile.space} by the profile "${profile.name}"` : 'sRGB'}. Print from this one.`;
}

async function writePrint(
  path: string,
  { print, grid }: RenderedDesign,
  profile?: OutputProfile,
): Promise<void> {
  const pixelsPerMm = { x: 1 / grid.mmPerPixelX, y: 1 / grid.mmPerPixelY };
  const picture = { ...print, pixelsPerMm };
  if (profile) await writeInProfile(path, picture, profile);
  else await writePicture(path, picture);
}

async function writeLayers(folder: string, { name }: Design, rendered: RenderedDesign) {
  const { print, artwork, steps, grid } = rendered;
  if (steps.length === 0) return undefined;
  const file = `${name}-layers.ora`;
  const stack = takeApart(print, artwork, steps);
  const pixelsPerMm = { x: 1 / grid.mmPerPixelX, y: 1 / grid.mmPerPixelY };
  await writeOpenRaster(join(folder, file), stack, { scratch: folder, pixelsPerMm });
  const order = stack.layers.map(({ name: layer, mode }) => ({ name: layer, mode }));
  return { file, order, off: stack.off, missing: stack.missing };
}

/** @returns What the plates warn of. */
async function addPlates(
  folder: string,
  { wish: { card, plates }, progress: { signal } }: Filling,
  { print: picture, grid: { repeat } }: RenderedDesign,
  files: FileFacts[],
): Promise<readonly string[]> {
  if (!card || !plates) return [];
  const { layout, width, height } = repeat;
  const out = join(folder, 'plates');
  const report = await writePlates(
    { picture, card, layout, size: { width, height }, ...plates, out },
    { signal },
  );
  for (const { file, name, order, coverage } of report.plates) {
    const dots = plateWords(plates.bits === 1, report.isWhole);
    const what = `Plate ${order}, ${name}: ${trimNumber(coverage, 1)} % of the repeat, ${dots}.`;
    files.push(await fileFacts(folder, `plates/${file}`, what));
  }
  files.push(await fileFacts(folder, `plates/${PLATES_JSON}`, 'What the plates are, for programs.'));
  return plates.trap === undefined ? [NO_TRAPS, ...report.warnings] : report.warnings;
}

const NO_TRAPS =
  'The plates have no traps: where two inks meet, the ground shows if the screens stand a little off. Say how wide traps are to be.';

function plateWords(isBits: boolean, isWhole: boolean): string {
  if (isBits) return 'in dots, black where ink stands';
  return isWhole ? 'each pixel all ink or none' : 'in tones, by areas';
}

function knownFacts(
  { design, wish, shelf, address }: Filling,
  { print, grid, seams, notes }: RenderedDesign,
  file: string,
  layers: ParcelFacts['layers'],
): Omit<ParcelFacts, 'cautions' | 'files'> {
  const { profile, card, colourways } = wish;
  const { width, height, layout } = grid.repeat;
  return {
    ...{ name: design.name, address, tenter: packageVersion },
    print: {
      file,
      widthPx: print.width,
      heightPx: print.height,
      bits: profile ? 8 : 8 * print.pixels.BYTES_PER_ELEMENT,
      dpi: { x: rounded(25.4 / grid.mmPerPixelX), y: rounded(25.4 / grid.mmPerPixelY) },
      profile: profile
        ? { name: profile.name, space: profile.space, intent: INTENT }
        : { name: 'sRGB', space: 'RGB' },
      opaque: isOpaque(print.pixels),
    },
    repeat: { layout: formatLayout(layout), widthMm: width, heightMm: height, ...stepsOf(grid) },
    artwork: { file: lastPart(design.tile.path), sha256: design.tile.sha256 },
    follow: design.follow,
    light: design.inputs.light,
    steps: design.steps.map((step) => stepFacts(step, findEffect(shelf, step.effect).effect)),
    seams: { closes: seams.closes, grade: seams.grade, summary: seams.summary },
    card: card && cardFacts(card, print, grid),
    colourways,
    layers,
    notes,
  };
}

function cardFacts(card: ShadeCard, print: Frame, { repeat }: Grid): NonNullable<ParcelFacts['card']> {
  const inks = inkFacts(card, print, (repeat.width * repeat.height) / 100);
  return { name: card.name, screens: printedInks(card).length, inks };
}

/** From one copy of the tile to the next; of a reflected one, which stands in a mirror there. */
function stepsOf({ repeat: { layout, width, height } }: Grid) {
  const share = layout.numerator / layout.denominator;
  return {
    across: { x: width, y: layout.kind === 'drop' ? height * share : 0 },
    down: { x: layout.kind === 'brick' ? width * share : 0, y: height },
  };
}

async function fileFacts(folder: string, name: string, what: string): Promise<FileFacts> {
  const path = join(folder, name);
  return { name, what, bytes: (await stat(path)).size, sha256: await sha256OfFile(path) };
}

async function zipped(folder: string, { files, name }: ParcelFacts): Promise<string> {
  const path = `${folder}.zip`;
  const names = [FACTS_FILE, ...files.map((file) => file.name)];
  await writeZip(
    path,
    names.map((file) => ({ name: `${name}/${file}`, from: join(folder, file) })),
  );
  return path;
}

function stopIfAsked(path: string, signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  throw new Fault({
    kind: 'cancelled',
    expected: 'the parcel to be finished',
    subject: path,
    received: 'a request to stop',
    saying: 'The parcel was not finished: it was stopped.',
    remedy: 'Nothing of it was left. Run the same command again to go on.',
  });
}

function sentence(words: string): string {
  const first = words.charAt(0).toUpperCase() + words.slice(1);
  return /[.!?]$/.test(first) ? first : `${first}.`;
}

function lastPart(path: string): string {
  return path.split(/[\\/]/).at(-1) ?? path;
}

/** Without the last digits of a division: 254, not 253.99999999999997. */
function rounded(dpi: number): number {
  return Number(dpi.toPrecision(10));
}
