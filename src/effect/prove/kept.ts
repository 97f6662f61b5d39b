import { megabytesOf } from './model-bytes.ts';
import type { Sample } from './sample.ts';
import type { Trial } from './trial.ts';

/** MB of models that are kept; the oldest go first. */
const MOST_MEGABYTES = 96;

/** Samples that one check has prepared, for others to look at. */
export class KeptSamples {
  private readonly samples = new Map<string, { readonly sample: Sample; readonly megabytes: number }>();
  private megabytes = 0;

  /** A sample of this trial, or of its twin of the other quality where `prepare` never asked for the quality. */
  of(trial: Trial): Sample | undefined {
    const own = this.samples.get(keyOf(trial))?.sample;
    if (own) return { ...own, trial };
    const twin = this.samples.get(keyOf({ ...trial, quality: otherOf(trial) }))?.sample;
    return twin && !twin.used.has('quality') ? { ...twin, trial } : undefined;
  }

  keep(sample: Sample): void {
    const megabytes = megabytesOf(sample);
    if (megabytes > MOST_MEGABYTES) return;
    this.samples.set(keyOf(sample.trial), { sample, megabytes });
    this.megabytes += megabytes;
    for (const [key, oldest] of this.samples) {
      if (this.megabytes <= MOST_MEGABYTES) return;
      this.samples.delete(key);
      this.megabytes -= oldest.megabytes;
    }
  }
}

/** All that a model is made of: what lies below is for paint alone. */
function keyOf({ layout, width, height, pixelsPerMm, seed, quality, artwork, parameters }: Trial): string {
  const values = Object.entries(parameters).sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify([layout, width, height, pixelsPerMm, seed, quality, artwork, values]);
}

function otherOf({ quality }: Trial): Trial['quality'] {
  return quality === 'sketch' ? 'finished' : 'sketch';
}
