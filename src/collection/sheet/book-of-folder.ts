import { join, resolve } from 'node:path';
import { z } from 'zod';
import { Fault } from '../../fault.ts';
import { readTextFile } from '../../host/files/text-file.ts';
import { placeInside, REPORT_FILE } from '../disk/output.ts';
import type { Report } from '../disk/report.ts';
import { mapSome } from '../making/each.ts';
import { byTile } from './by-tile.ts';
import { OriginalFinder } from './original.ts';
import type { Book, Swatch } from './swatch.ts';

const text = z.string();
const named = z.object({ name: text, address: text });
const side = z.number().positive();

/** What must hold of a report to be shown; more in it is passed on as it is. */
const shape = z.object({
  summary: text,
  made: z.array(
    named.extend({
      labels: z.record(text, text),
      inputs: z.looseObject({ steps: z.array(z.looseObject({})) }),
      picture: z.object({
        layout: text,
        widthPx: side,
        heightPx: side,
        widthMm: side,
        heightMm: side,
      }),
      seams: z.object({
        closes: z.boolean(),
        grade: z.enum(['closes', 'look', 'open']).optional(),
        summary: text,
      }),
      notes: z.array(text),
    }),
  ),
  failed: z.array(named.extend({ reason: text })),
  missing: z.array(named),
});

/**
 * What the report in the folder of a run tells, to be shown: neither the collection file nor its tiles
 * and effects are needed. What failed or is missing has no more than a name there.
 *
 * @throws Fault (input) where there is no report that can be read.
 */
export async function bookOfFolder(place: string): Promise<Book> {
  const folder = resolve(place);
  const report = await readReport(folder);
  const originals = new OriginalFinder(folder);
  const made = await mapSome(report.made, 1, async (entry): Promise<Swatch> => {
    const { name, address, labels, inputs, picture, seams, notes } = entry;
    return {
      name,
      address,
      labels,
      inputs,
      original: await originals.find(entry),
      made: { path: await placeInside(folder, name), picture, seams, notes },
    };
  });
  const failed = report.failed.map(({ name, address, reason }) => empty(name, address, `failed: ${reason}`));
  const missing = report.missing.map(({ name, address }) => empty(name, address, 'not rendered yet'));
  return { summary: report.summary, folder, swatches: byTile([...made, ...failed, ...missing]) };
}

function empty(name: string, address: string, reason: string): Swatch {
  return { name, address, labels: {}, reason };
}

const REPORT = {
  expected: 'the report of a run',
  remedy: 'Give the collection file, or write the report with "tenter collect report".',
  // Some kilobytes for each of a hundred thousand renders; a text of more cannot be held in one piece.
  most: 500e6,
};

async function readReport(folder: string): Promise<Report> {
  const path = join(folder, REPORT_FILE);
  try {
    const value: unknown = JSON.parse(await readTextFile(path, REPORT));
    shape.parse(value);
    return value as Report;
  } catch (cause) {
    if (Fault.is(cause)) throw cause;
    const received = cause instanceof z.ZodError ? 'something else' : String(cause);
    throw new Fault({ kind: 'input', ...REPORT, subject: path, received, cause });
  }
}
