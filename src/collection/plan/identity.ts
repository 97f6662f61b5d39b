import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { hexOfBytes } from '../../colour/hex.ts';
import { DEFAULT_LIGHT, type Light } from '../../composite/light.ts';
import type { Quality } from '../../effect/effect.ts';
import { pictureName, readPictureValue, statedText } from '../../effect/picture-value.ts';
import { packageVersion } from '../../host/code/root.ts';
import type { InksInForce } from '../../host/ink/inks-in-force.ts';
import { isOwn } from '../../host/ink/recolour-frame.ts';
import type { Screens } from '../../host/ink/screens.ts';
import { mmOfPixel, pictureValues } from '../../host/parameter-pictures.ts';
import { findEffect, type Shelf } from '../../host/plugins/shelf.ts';
import { measurePicture, type PictureFacts, readSteadily, sha256OfFile } from '../../picture/index.ts';
import type { Follow } from '../../render/follow.ts';
import { inLight } from '../../render/layer-place.ts';
import { isRaised } from '../../render/light-words.ts';
import type { RenderStep } from '../../render/step.ts';
import type { Grid } from '../../repeat/grid.ts';
import { formatLayout } from '../../repeat/layout.ts';
import { canonicalJson, sha256 } from '../disk/hash.ts';
import type { CollectionTile } from '../file/tiles.ts';

export type OutputFormat = 'png' | 'tif';

/** Everything that decides the bytes of a render. Plain data, the same on every machine. */
export interface Inputs {
  readonly tenter: string;
  readonly tile: { readonly sha256: string; readonly width: number; readonly height: number };
  readonly repeat: {
    readonly layout: string;
    readonly widthMm: number;
    readonly heightMm: number;
    /** Of one tile as it is rendered; other than the file's where it was resampled. */
    readonly widthPx: number;
    readonly heightPx: number;
  };
  readonly follow: Follow;
  /** Where a step is raised. */
  readonly light?: Light;
  readonly quality: Quality;
  /** Of a picture of counted inks: how it is asked for, with all of the card. */
  readonly screens?: Readonly<Record<string, unknown>>;
  /** Where the tile is recoloured. */
  readonly colourway?: ColourwayInputs;
  readonly steps: readonly StepInputs[];
  readonly format: OutputFormat;
}

/** What a colourway comes to, wherever its file lies. */
export interface ColourwayInputs {
  readonly name: string;
  /** `#rrggbb` of each ink on the card and in the colourway, in the order of the card. */
  readonly inks: readonly { readonly name: string; readonly from: string; readonly to: string }[];
}

export interface StepInputs {
  readonly effect: string;
  readonly version: string;
  /** SHA-256 of the effect's code. */
  readonly code: string;
  readonly preset?: string;
  /** A picture by what it shows, see `PictureInputs`. */
  readonly parameters: Readonly<Record<string, unknown>>;
  readonly seed: string;
  readonly blend: string;
  readonly opacity: number;
  readonly paper: string;
  readonly mask?: Readonly<Record<string, unknown>>;
}

/** What a picture parameter comes to, wherever its file lies. */
export interface PictureInputs {
  /** The file's own, for whoever reads it. */
  readonly name: string;
  readonly sha256: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** The size or the density that is stated behind its path, as it is written there. */
  readonly stated?: string;
}

/** A render before it has a name. */
export interface RenderWish {
  readonly tile: CollectionTile;
  readonly grid: Grid;
  readonly steps: readonly RenderStep[];
  readonly follow: Follow;
  readonly light?: Light;
  readonly screens?: Screens;
  readonly quality: Quality;
  readonly format: OutputFormat;
  /** The card of the tile, and the colourway that it is recoloured to. */
  readonly inks?: InksInForce;
}

/** As much of a render as decides its bytes. */
type InputsWish = Omit<RenderWish, 'tile'> & {
  readonly tile: Pick<CollectionTile, 'sha256' | 'width' | 'height'>;
};

/** Hashes of files that renders depend on, each read once. */
export class FileHashes {
  readonly #codes = new Map<string, Promise<string>>();
  readonly #masks = new Map<string, Promise<string>>();
  readonly #measured = new Map<string, ReturnType<FileHashes['measured']>>();

  /** Of an effect's code. Where it was compiled and how its files were reached leaves no trace in it. */
  code(shelf: Shelf, effect: string): Promise<string> {
    const { moduleUrl } = findEffect(shelf, effect);
    return remembered(this.#codes, moduleUrl, async () => {
      const text = await readFile(fileURLToPath(moduleUrl), 'utf8');
      return sha256(
        text.replaceAll(/^\/\/ (?:\S+\.[cm]?[jt]s|[\w-]+:\S+)$|^\/\/# sourceMappingURL=.*$/gm, ''),
      );
    });
  }

  /** Of a picture that a parameter names, and what its file says of it. */
  measured(path: string): Promise<PictureFacts & { readonly sha256: string }> {
    return remembered(this.#measured, path, async () => {
      const { result, sha256 } = await readSteadily(path, () => measurePicture(path));
      return { ...result, sha256 };
    });
  }

  mask(path: string): Promise<string> {
    return remembered(this.#masks, path, () => sha256OfFile(path));
  }
}

/** What decides the bytes of a render. @throws the system's error where a picture cannot be read. */
export async function inputsOf(wish: InputsWish, shelf: Shelf, hashes: FileHashes): Promise<Inputs> {
  const { tile, grid, follow, light = DEFAULT_LIGHT, screens, quality, format } = wish;
  return {
    tenter: packageVersion,
    tile: { sha256: tile.sha256, width: tile.width, height: tile.height },
    repeat: {
      layout: formatLayout(grid.repeat.layout),
      widthMm: grid.repeat.width,
      heightMm: grid.repeat.height,
      widthPx: grid.tileWidth,
      heightPx: grid.tileHeight,
    },
    follow,
    light: isRaised(wish.steps) ? light : undefined,
    quality,
    ...(screens && { screens: { ...screens.wish, card: screens.card } }),
    colourway: wish.inks && colourwayInputs(wish.inks),
    steps: await Promise.all(wish.steps.map((step) => stepInputs(step, wish.light, shelf, hashes))),
    format,
  };
}

function colourwayInputs({ card, colourway }: InksInForce): ColourwayInputs | undefined {
  if (!colourway || isOwn({ card, colourway })) return undefined;
  const inks = card.inks.map(({ name, colour }, at) => ({
    ...{ name, from: hexOfBytes(colour), to: hexOfBytes(colourway.colours[at]) },
  }));
  return { name: colourway.name, inks };
}

/** The same for a design outside of a collection. @throws the system's error where a picture cannot be read. */
export function designInputs(
  design: Pick<RenderWish, 'grid' | 'steps' | 'follow' | 'light' | 'inks' | 'screens'> & {
    readonly tile: Pick<CollectionTile, 'sha256' | 'width' | 'height'>;
  },
  shelf: Shelf,
): Promise<Inputs> {
  return inputsOf({ ...design, quality: 'finished', format: 'png' }, shelf, new FileHashes());
}

/** True for what stands in the parameters of a step in place of a picture's path. */
export function isPictureInputs(value: unknown): value is PictureInputs {
  return typeof value === 'object' && value !== null && 'sha256' in value;
}

/** The content address of a render: its inputs' SHA-256. The name of a preset, a picture, a colourway or an ink changes no byte. */
export function addressOf(inputs: Inputs): string {
  const steps = inputs.steps.map(({ preset, parameters, ...step }) => ({
    ...step,
    parameters: Object.fromEntries(Object.entries(parameters).map(([name, value]) => [name, unnamed(value)])),
  }));
  const colourway = inputs.colourway?.inks.map(({ from, to }) => [from, to]);
  return sha256(canonicalJson({ ...inputs, colourway, steps }));
}

function unnamed(value: unknown): unknown {
  if (!isPictureInputs(value)) return value;
  const { name, ...shown } = value;
  return shown;
}

async function stepInputs(
  step: RenderStep,
  light: Light | undefined,
  shelf: Shelf,
  hashes: FileHashes,
): Promise<StepInputs> {
  const order = inLight(step, light);
  const { effect, version, preset, blend, opacity, paper, mask } = step;
  const { picture, ...rest } = mask ?? {};
  return {
    effect,
    version,
    code: await hashes.code(shelf, effect),
    preset,
    parameters: { ...order.parameters, ...(await pictureInputs({ ...step, order }, hashes)) },
    seed: order.seed,
    blend,
    opacity,
    paper,
    mask: mask && (picture === undefined ? rest : { ...rest, picture: await hashes.mask(picture) }),
  };
}

async function pictureInputs(
  step: RenderStep,
  hashes: FileHashes,
): Promise<Readonly<Record<string, PictureInputs>>> {
  const found = pictureValues(step).map(async ([name, value]) => {
    const { path } = readPictureValue(value);
    const facts = await hashes.measured(path);
    // One whose size nobody states is told before anything is made.
    mmOfPixel(facts, value);
    const stated = statedText(value);
    const { width, height, sha256 } = facts;
    const inputs = { name: pictureName(path), sha256, widthPx: width, heightPx: height };
    return [name, stated === '' ? inputs : { ...inputs, stated }] as const;
  });
  return Object.fromEntries(await Promise.all(found));
}

function remembered<T>(map: Map<string, Promise<T>>, key: string, make: () => Promise<T>): Promise<T> {
  const known = map.get(key) ?? make();
  map.set(key, known);
  return known;
}
