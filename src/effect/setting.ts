import { Fault } from '../fault.ts';
import { randomStream } from '../field/random.ts';
import type { Box } from '../repeat/repeat.ts';
import { type Artwork, plainArtwork, readsArtwork } from './artwork.ts';
import type { AnyEffect, Quality, Report, Setting } from './effect.ts';
import { noteUnknown } from './misspelt.ts';
import type { Picture } from './picture.ts';
import { pictureNames } from './picture-value.ts';
import { resolveValues } from './values.ts';

export interface SettingOptions {
  readonly box: Box;
  readonly seed: string;
  /** `finished` where absent. */
  readonly quality?: Quality;
  readonly parameters?: Readonly<Record<string, unknown>>;
  /** What the picture parameters name, by the names of these. */
  readonly pictures?: Pictures;
  /** The artwork, for an effect that reads it; plain white where absent. */
  readonly artwork?: Artwork;
  readonly onProgress?: (done: number) => void;
  readonly isCancelled?: () => boolean;
}

/**
 * The setting an effect's `prepare` is called with, the list its reports go to, and the names of parameters
 * that it reads though there are none.
 */
export function openSetting(
  effect: AnyEffect,
  options: SettingOptions,
): { setting: Setting; reports: Report[]; unknown: readonly string[] } {
  const reports: Report[] = [];
  const unknown: string[] = [];
  const pictures = frozenPictures(options.pictures ?? {});
  const values = resolveValues(effect.name, effect.parameters, options.parameters ?? {}, effect.retired);
  const setting: Setting = Object.freeze({
    parameters: noteUnknown(values, unknown),
    box: deepFreeze(structuredClone(options.box)),
    seed: options.seed,
    quality: options.quality ?? 'finished',
    random: (name: string) => randomStream(options.seed, `${effect.name}/${name}`),
    picture: (name: string) => pictureOf(effect, pictures, name),
    report: (figure: Report) => void reports.push(figure),
    ...(readsArtwork(effect) && { artwork: frozenArtwork(options.artwork ?? plainArtwork(options.box)) }),
    progress: (done: number) => {
      if (options.isCancelled?.()) throw cancelled();
      options.onProgress?.(done);
    },
  });
  return { setting, reports, unknown };
}

type Pictures = Readonly<Record<string, Picture>>;

/** What an effect may see of them, and whatever came with them left out. */
function frozenPictures(pictures: Pictures): Pictures {
  const entries = Object.entries(pictures).map(
    ([name, { width, height, mmPerPixelX, mmPerPixelY, samples }]) => [
      name,
      Object.freeze({ width, height, mmPerPixelX, mmPerPixelY, samples }),
    ],
  );
  return Object.fromEntries(entries);
}

/** @throws TypeError for a name that is none of a picture: that is a slip of the effect's author. */
function pictureOf(effect: AnyEffect, pictures: Pictures, name: string): Picture {
  if (Object.hasOwn(pictures, name)) return pictures[name];
  const names = pictureNames(effect.parameters);
  const known = names.length > 0 ? `it has ${names.join(', ')}` : 'it has none';
  throw new TypeError(`setting.picture("${name}") names no picture parameter of ${effect.name}; ${known}`);
}

/** What comes from another thread is not frozen. */
function frozenArtwork(artwork: Artwork): Artwork {
  return Object.freeze({ ...artwork, lattice: Object.freeze({ ...artwork.lattice }) });
}

/** The Fault of a render that was given up on purpose. */
export function cancelled(): Fault {
  return new Fault({
    kind: 'cancelled',
    expected: 'the render to finish',
    subject: 'the render',
    received: 'a request to stop',
    saying: 'The render was stopped before it was done.',
  });
}

function deepFreeze<T extends object>(value: T): T {
  for (const inner of Object.values(value))
    if (typeof inner === 'object' && inner !== null) deepFreeze(inner);
  return Object.freeze(value);
}
