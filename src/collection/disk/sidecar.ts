import { lstat, stat } from 'node:fs/promises';
import { z } from 'zod';
import type { Report } from '../../effect/effect.ts';
import type { ScreenedFacts } from '../../host/ink/screen-picture.ts';
import type { Grade, SeamReport } from '../../inspect/index.ts';
import { sha256OfFile } from '../../picture/file-hash.ts';
import type { Labels } from '../plan/combine.ts';
import type { Inputs } from '../plan/identity.ts';
import { readRecord } from './record.ts';

/** Whether a picture closes, in short and in words. */
export interface Verdict {
  readonly closes: boolean;
  /** None in a record that was made before there were grades. */
  readonly grade?: Grade;
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
  /** Of each step, the files that its picture parameters name, from the sidecar's own folder; none where no step has any. */
  readonly pictures?: readonly Readonly<Record<string, string>>[];
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
  /** The share of the tile that each step was laid on, 0..1; null for a step without a mask. None in older records. */
  readonly laidOn?: readonly (number | null)[];
  /** Of a picture of counted inks: what each of its colours is printed with. */
  readonly screens?: ScreenedFacts;
  /** Facts of the machine and the hour; two machines differ here and nowhere else. */
  readonly run: {
    readonly finished: string;
    readonly host: string;
    readonly node: string;
    /** Modification time of the picture, so that an untouched one need not be read again. */
    readonly modifiedMs: number;
    readonly milliseconds: Readonly<Record<string, number>>;
    readonly attempts: number;
    /** SHA-256 of the render of ours that this one replaced: until that moment it stood under this record. */
    readonly replaces?: string;
  };
}

/** A seam report as a sidecar keeps it. */
export function inShort({ closes, grade, summary }: SeamReport): Verdict {
  return { closes, grade, summary };
}

const shape = z.object({
  address: z.string(),
  name: z.string(),
  labels: z.record(z.string(), z.string()),
  picture: z.object({ bytes: z.number(), sha256: z.string(), widthPx: z.number(), heightPx: z.number() }),
  seams: z.object({ closes: z.boolean(), summary: z.string() }),
  run: z.object({
    modifiedMs: z.number(),
    milliseconds: z.record(z.string(), z.number()),
    replaces: z.string().optional(),
  }),
});

/** More than any sidecar holds: recipes of thousands of steps. */
const MOST_BYTES = 64e6;

/** The sidecar's path: that of the picture with `.json` after it. */
export function sidecarPath(picture: string): string {
  return `${picture}.json`;
}

/** The sidecar of a picture; none where it is missing, cut short, or something else. */
export async function readSidecar(picture: string): Promise<Sidecar | undefined> {
  const value = await readRecord(sidecarPath(picture), MOST_BYTES);
  return shape.safeParse(value).success ? (value as Sidecar) : undefined;
}

/** True for a sidecar that is there and cannot be read as one: cut short by a full disk, or something else of that name. */
export async function isDamagedSidecar(picture: string): Promise<boolean> {
  const isThere = await lstat(sidecarPath(picture)).then(
    () => true,
    () => false,
  );
  return isThere && !(await readSidecar(picture));
}

/** What is found under a picture's name. */
export type Standing =
  /** Nothing. */
  | { readonly kind: 'free' }
  /** The very render that is wanted. */
  | { readonly kind: 'made'; readonly sidecar: Sidecar }
  /** A render of ours from other inputs, untouched since. */
  | { readonly kind: 'old'; readonly sha256: string }
  /** A picture that has a sidecar, and is not what that tells of, or that cannot be read. */
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
  if (!sidecar) return { kind: (await isDamagedSidecar(picture)) ? 'changed' : 'strange' };
  const { sha256, bytes } = sidecar.picture;
  const isUntouched = !verify && found.size === bytes && found.mtimeMs === sidecar.run.modifiedMs;
  const own = isUntouched ? sha256 : await sha256OfFile(picture).catch(() => '');
  if (own === sha256 && sidecar.address === address) return { kind: 'made', sidecar };
  // Killed between a sidecar and its picture, what stands beside it is what it was to replace.
  if (own !== '' && (own === sha256 || own === sidecar.run.replaces)) return { kind: 'old', sha256: own };
  return { kind: 'changed' };
}
