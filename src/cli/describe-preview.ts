import { relative } from 'node:path';
import { fullSample } from '../colour/samples.ts';
import type { Preview } from '../host/author/preview.ts';
import type { PlaneRange } from '../render/ranges.ts';
import { trimNumber } from '../repeat/length.ts';
import { hintsFor } from './hints.ts';

/** What a drawing came to, in words, and how it differs from the one before. */
export function describePreview(preview: Preview, before: Preview | undefined): string {
  const { step, report, took, loading } = preview;
  const { timings, quality, seams, warnings, out } = report;
  const parts = `loaded in ${seconds(loading)}, prepared in ${seconds(timings.prepare)}, painted in ${seconds(timings.paint)}`;
  const figures = report.reports[0].map(({ name, value }) => `${name} ${number(value)}`);
  return [
    `${step.effect} ${step.version} drawn${quality === 'sketch' ? ' as a sketch' : ''} in ${seconds(took)} (${parts})`,
    ...describeRanges(report.ranges[0]),
    ...(figures.length > 0 ? [figures.join(', ')] : []),
    ...warnings.map((warning) => `warning: ${warning}`),
    `seams: ${isWhole(report.ranges[0]) ? seams.summary : NOT_JUDGED}`,
    ...hintsFor(report).map((hint) => `hint: ${hint}`),
    `${describeChange(preview, before)}: ${relative(process.cwd(), out)}`,
  ].join('\n  ');
}

/** Laid, a number that is none comes out black, and black closes. */
const NOT_JUDGED =
  'not looked at, for there are values that are no finite numbers: look for a misspelt name, a division by 0 or a root of less than 0';

function isWhole(ranges: readonly PlaneRange[]): boolean {
  return ranges.every(({ strange }) => strange === 0);
}

function describeRanges(ranges: readonly PlaneRange[]): string[] {
  const planes = [...new Set(ranges.map(({ plane }) => plane))];
  return planes.map((plane) => {
    const channels = ranges.filter((range) => range.plane === plane).map(describeRange);
    return `${plane}: ${channels.join('; ')}`;
  });
}

function describeRange({ channel, low, high, sum, count, strange }: PlaneRange): string {
  const name = channel ? `${channel} ` : '';
  const odd = strange > 0 ? `, ${strange} VALUES ARE NO FINITE NUMBERS` : '';
  if (count === 0) return `${name}nothing${odd}`;
  return `${name}${number(low)} to ${number(high)}, mean ${number(sum / count)}${odd}`;
}

function describeChange({ pixels }: Preview, before: Preview | undefined): string {
  if (!before) return 'the first picture';
  if (before.pixels.length !== pixels.length) return 'the picture has another size';
  let other = 0;
  let most = 0;
  for (let k = 0; k < pixels.length; k += 4) {
    let away = 0;
    for (let channel = 0; channel < 4; channel++)
      away = Math.max(away, Math.abs(pixels[k + channel] - before.pixels[k + channel]));
    if (away > 0) other++;
    most = Math.max(most, away);
  }
  if (other === 0) return 'the picture is the same';
  const share = number((400 * other) / pixels.length);
  const full = fullSample(pixels);
  return `the picture changed in ${share} % of its pixels, by ${most} of ${full} at most`;
}

function seconds(ms: number): string {
  return `${trimNumber(ms / 1000, 2)} s`;
}

function number(value: number | string): string {
  return typeof value === 'number' ? trimNumber(value, 3) : value;
}
