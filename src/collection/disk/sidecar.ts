import { readFile, stat } from 'node:fs/promises';
import { z } from 'zod';
import type { Report } from '../../effect/effect.ts';
import type { SeamReport } from '../../inspect/index.ts';
import type { Labels } from '../plan/combine.ts';
import type { Inputs } from '../plan/identity.ts';
import { sha256OfFile } from './hash.ts';

/** Whether a picture closes, in short and in words. */
export interface Verdict {
  readonly closes: boolean;
  readonly summary: string;
}

/** What stands beside every picture: all that decided it, all that came of it. */
export interface Sidecar {
  readonly address: string;
  readonly name: string;
  readonly labels: Labels;
  /** The tile's path, from the collection's folder. */
  readonly tile: string;
  readonly inputs: Inputs;
  readonly picture: {
    readonly bytes: number;
    readonly sha256: string;
    readonly widthPx: number;
    readonly heightPx: number;
    /** Of the picture, in which a reflected tile may have been unfolded. */
    readonly layout: string;
    readonly widthMm: number;
    readonly heightMm: number;
    readonly dpi: number;
  };
  readonly seams: Verdict;
  readonly tileSeams: Verdict;
  readonly notes: readonly string[];
  /** What the effects reported, step by step. */
  readonly reports: readonly (readonly Report[])[];
  /** Facts of the machine and the hour; two machines differ here and nowhere else. */
  readonly run: {
    readonly finished: string;
    readonly host: string;
    readonly node: string;
    /** Modification time of the picture, so that an untouched one need not be read again. */
    readonly modifiedMs: number;
    readonly milliseconds: Readonly<Record<string, number>>;
    readonly attempts: number;
  };
}

/** A seam report as a sidecar keeps it. */
export function inShort({ closes, summary }: SeamReport): Verdict {
  return { closes, summary };
}

const shape = z.object({
  address: z.string(),
  name: z.string(),
  labels: z.record(z.string(), z.string()),
  picture: z.object({ bytes: z.number(), sha256: z.string(), widthPx: z.number(), heightPx: z.number() }),
  seams: z.object({ closes: z.boolean(), summary: z.string() }),
  run: z.object({ modifiedMs: z.number(), milliseconds: z.record(z.string(), z.number()) }),
});

/** The sidecar's path: that of the picture with `.json` after it. */
export function sidecarPath(picture: string): string {
  return `${picture}.json`;
}

/** The sidecar of a picture; none where it is missing, cut short, or something else. */
export async function readSidecar(picture: string): Promise<Sidecar | undefined> {
  const text = await readFile(sidecarPath(picture), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    const value = JSON.parse(text);
    return shape.safeParse(value).success ? value : undefined;
  } catch {
    return undefined;
  }
}

/** What is found under a picture's name. */
export type Standing =
  /** Nothing. */
  | { readonly kind: 'free' }
  /** The very render that is wanted. */
  | { readonly kind: 'made'; readonly sidecar: Sidecar }
  /** A render of ours from other inputs, untouched since. */
  | { readonly kind: 'old' }
  /** A picture that has a sidecar of ours, and is not what it was. */
  | { readonly kind: 'changed' }
  /** A file that this program did not make, as far as one can see. */
  | { readonly kind: 'strange' };

/**
 * Looks at what stands under a name.
 *
 * @param verify Read the whole picture even where its size and time say that nobody touched it.
 */
export async function standingOf(picture: string, address: string, verify: boolean): Promise<Standing> {
  const found = await stat(picture).catch(() => undefined);
  if (!found) return { kind: 'free' };
  const sidecar = await readSidecar(picture);
  if (!sidecar) return { kind: 'strange' };
  const untouched =
    found.size === sidecar.picture.bytes &&
    ((!verify && found.mtimeMs === sidecar.run.modifiedMs) ||
      (await sha256OfFile(picture).catch(() => '')) === sidecar.picture.sha256);
  if (!untouched) return { kind: 'changed' };
  return sidecar.address === address ? { kind: 'made', sidecar } : { kind: 'old' };
}
