import { extname } from 'node:path';
import type { BlendMode } from '../colour/blend.ts';
import { parseHex, type Rgb } from '../colour/hex.ts';
import { shareBlank } from '../colour/samples.ts';
import { decodeSrgb } from '../colour/srgb.ts';
import { type HandPart, type LaidAgain, layersByHand, measureLaidAgain } from '../composite/index.ts';
import type { AnyLayer } from '../effect/layer.ts';
import type { WritablePicture } from '../picture/index.ts';
import { openPlanes } from '../render/kept-planes.ts';
import type { RenderStep } from '../render/step.ts';
import type { TextureKeeper } from '../render/textures.ts';
import type { Grid } from '../repeat/grid.ts';
import { trimNumber } from '../repeat/length.ts';

/** The pictures that were made for laying by hand, and how well they do it. */
export interface ByHand {
  /** The lowest first. */
  readonly layers: readonly {
    readonly file: string;
    readonly part: HandPart;
    /** As W3C Compositing and Blending names it. */
    readonly mode: BlendMode;
    /** In words. */
    readonly holds: string;
  }[];
  readonly again: Omit<LaidAgain, 'worstPixel' | 'worstOver'> & {
    /** mm from the left upper corner, where `largest` is. */
    readonly at: { readonly x: number; readonly y: number };
    /** `#rrggbb` of the artwork there. */
    readonly over: string;
  };
  /** What no picture can hold. */
  readonly warnings: readonly string[];
}

const HOLDS: Readonly<Record<HandPart, string>> = {
  paint: 'paint thinned and gathered',
  wash: 'the bare paper',
  colour: 'the colour',
  dark: 'what covers and darkens',
  light: 'what gleams',
};

/** Every name that pictures for laying by hand may get. */
export function byHandPaths(out: string): string[] {
  return (Object.keys(HOLDS) as HandPart[]).map((part) => pathOf(out, part));
}

/** Keeps the planes of the one step of a render. */
export function openPlaneKeeper(): { readonly textures: TextureKeeper; layer(): AnyLayer } {
  let kept: AnyLayer | undefined;
  return {
    textures: {
      findPrepared: () => undefined,
      keepPrepared: () => {},
      async lendLayer(place) {
        const planes = openPlanes(
          place,
          (bytes) => shareBlank(new Uint8Array(), bytes).buffer as SharedArrayBuffer,
        );
        kept = { width: place.width, height: place.height, ...planes };
        return { planes, isPainted: false, end: () => {} };
      },
    },
    layer: () => kept!,
  };
}

/** The pictures of a layer as the step would lay it, and the facts about them. */
export function makeByHand(
  layer: AnyLayer,
  { blend, paper, opacity }: RenderStep,
  { mmPerPixelX, mmPerPixelY }: Grid,
  out: string,
): { pictures: { path: string; picture: WritablePicture }[]; facts: ByHand } {
  const { width, height } = layer;
  const linearPaper = parseHex(paper).map(decodeSrgb) as readonly number[] as Rgb;
  const options = { blend, paper: linearPaper, strength: opacity };
  const made = layersByHand(layer, options);
  const { worstPixel, worstOver, ...again } = measureLaidAgain(layer, made, options);
  const at = {
    x: ((worstPixel % width) + 0.5) * mmPerPixelX,
    y: (Math.floor(worstPixel / width) + 0.5) * mmPerPixelY,
  };
  return {
    pictures: made.map(({ part, pixels }) => ({
      path: pathOf(out, part),
      picture: { pixels, width, height },
    })),
    facts: {
      layers: made.map(({ part, mode }) => ({ file: pathOf(out, part), part, mode, holds: HOLDS[part] })),
      again: { ...again, at, over: worstOver },
      warnings: movedWarnings(layer, opacity),
    },
  };
}

function pathOf(out: string, part: HandPart): string {
  const ending = extname(out);
  return `${out.slice(0, out.length - ending.length)}-${part}${ending}`;
}

function movedWarnings({ shift, bleed }: AnyLayer, opacity: number): string[] {
  const ways = [
    shift && `moves paint by up to ${trimNumber(farthest(shift, 2) * opacity, 2)} mm`,
    bleed && `lets it run by up to ${trimNumber(farthest(bleed, 1) * opacity, 2)} mm`,
  ].filter((way) => typeof way === 'string');
  if (ways.length === 0) return [];
  return [
    `this effect ${ways.join(' and ')}: no layer can hold that, and the figures leave it out. Lay it with "tenter lay" to have it.`,
  ];
}

function farthest(plane: Float32Array, channels: 1 | 2): number {
  let most = 0;
  for (let at = 0; at < plane.length; at += channels)
    most = Math.max(most, channels === 1 ? plane[at] : Math.hypot(plane[at], plane[at + 1]));
  return most;
}
