import type { BlendMode } from '../../colour/blend.ts';
import { Fault } from '../../fault.ts';
import { planesRead, readsArtwork } from '../artwork.ts';
import type { AnyEffect, Band, Setting } from '../effect.ts';
import { HINTS } from '../hints.ts';
import { type AnyLayer, neutralLayer, PLANE_NAMES, type PlaneName } from '../layer.ts';
import { describeThrown, refusePromise, type Stage } from '../runner.ts';
import { openSetting, type SettingOptions } from '../setting.ts';
import { belowOf } from './below.ts';
import { dataDifference } from './compare.ts';
import type { RunCopy } from './copy.ts';
import { Crashed, Failed, Refused } from './failed.ts';
import { KeptSamples } from './kept.ts';
import { proofArtwork } from './proof-artwork.ts';
import { proofPictures } from './proof-swatches.ts';
import type { Sample } from './sample.ts';
import { type Trapped, watchFromNow } from './traps.ts';
import { gridOfTrial, type Trial } from './trial.ts';

export type { Sample } from './sample.ts';

/** Instruments that the kit cannot have by itself, because it runs in a browser too. */
export interface BenchOptions {
  /** ms that have passed since any fixed moment. Without it nothing is timed. */
  readonly now?: () => number;
  /** Bytes in use once unreachable memory has been collected. Without it leaks are not looked for. */
  readonly memory?: () => number;
  /** ms of work since any fixed moment, which a busy machine does not make longer: what an effect takes is told by it. Without it `now` is taken. */
  readonly work?: () => number;
  /** What the process and the thread take, without looking for what is reachable. Without it only models are measured. */
  readonly footprint?: () => Footprint;
  /** Fewer sizes and fewer random settings. */
  readonly quick?: boolean;
  /** Settings to try besides the defaults, such as the effect's presets. */
  readonly presets?: readonly Preset[];
  /** Loads the effect afresh. Without it nothing is known of what it does while it is loaded, or keeps for good. */
  readonly runCopy?: RunCopy;
  /** Told before every call into the effect what it is called with, so that a hang has a name. */
  readonly onTrying?: (trial: Trial, stage: Stage) => void;
  /** What to do about an error that comes of where the effect runs, as a whole sentence; else nothing. */
  readonly remedyFor?: (error: unknown) => string | undefined;
}

/** Bytes. */
export interface Footprint {
  /** Of the process now, and at the most so far. */
  readonly process: number;
  readonly highest: number;
  /** Of the thread, with what is no longer reachable but has not been collected. */
  readonly thread: number;
}

export interface Preset {
  readonly name: string;
  readonly parameters: Trial['parameters'];
  /** How its tint is laid, where it says so. */
  readonly blend?: BlendMode;
  /** How much of it is laid, 0 to 1, where it says so. */
  readonly opacity?: number;
}

type Rectangle = Pick<Band, 'x' | 'y' | 'width' | 'height'>;

/**
 * Calls an effect as the host does. Where a call fails only because the effect breaks a promise that
 * a check of its own is there for (it writes a plane it did not declare, or into its frozen setting),
 * the call is made again with that allowed, so that one fault does not fail every check.
 */
export interface Bench extends BenchOptions {
  readonly effect: AnyEffect;
  /** @throws Refused, or Failed where the effect throws anything else. */
  prepare(trial: Trial, hooks?: Hooks): Promise<Sample>;
  /**
   * A sample as any check may have prepared and painted it: for checks of the picture, not of the
   * calls that make it.
   *
   * @throws Refused, or Failed where the effect throws anything else.
   */
  shared(trial: Trial): Promise<Sample>;
  paint(sample: Sample, rectangle: Rectangle): AnyLayer;
  /** The same where a check looks at the numbers itself, whether they are sound. */
  paintAnyhow(sample: Sample, rectangle: Rectangle): AnyLayer;
  /**
   * Lets the effect fill a layer of the caller's; whatever it throws comes through.
   *
   * @param onWriteBelow Told where it wrote into what lies below, as `below.relief[12]`.
   */
  paintInto(
    sample: Sample,
    rectangle: Rectangle,
    layer: AnyLayer,
    onWriteBelow?: (place: string) => void,
  ): void;
  /** The setting of a trial as the host makes it. */
  setting(trial: Trial, hooks?: Hooks): Setting;
  /** Calls `prepare` with a setting of the caller's; whatever it throws comes through. */
  callPrepare(trial: Trial, setting: Setting): Promise<unknown>;
  /** Whether a crash at values that are not the defaults is passed over, for the check of parameters to tell. */
  readonly leavesCrashes?: boolean;
  /** Where whoever calls wants to know: what calls into the effect have drawn from, each with the first setting. */
  drawn?: Map<string, Trial>;
}

/** Opens a bench for an effect. */
export function openBench(effect: AnyEffect, options: BenchOptions = {}): Bench {
  const trying = options.onTrying ?? (() => {});
  const kept = new KeptSamples();
  const bench: Bench = {
    ...options,
    effect,
    setting(trial, hooks) {
      const { parameters, seed, quality } = trial;
      const { box } = gridOfTrial(trial);
      const pictures = proofPictures(effect, parameters);
      const artwork = readsArtwork(effect) ? proofArtwork(box, trial.artwork) : undefined;
      return openSetting(effect, { box, seed, quality, parameters, pictures, artwork, ...hooks }).setting;
    },
    async callPrepare(trial, setting) {
      trying(trial, 'prepare');
      const watch = bench.drawn && watchFromNow();
      try {
        return await effect.prepare(setting);
      } finally {
        note(bench, trial, watch);
      }
    },
    async prepare(trial, hooks) {
      const setting = bench.setting(trial, hooks);
      const { watched, used } = watchUse(setting);
      const model = await bench.callPrepare(trial, watched).catch((error) => {
        passOn(trial, error, hooks);
        return bench.callPrepare(trial, thaw(bench.setting(trial, hooks))).catch((again) => {
          passOn(trial, again, hooks);
          throw thrown(bench, trial, 'prepare', error);
        });
      });
      return { trial, grid: gridOfTrial(trial), model, planes: planesOf(bench, trial, setting), used };
    },
    async shared(trial) {
      const before = kept.of(trial);
      if (before) return before;
      const sample = await bench.prepare(trial);
      kept.keep(sample);
      return sample;
    },
    paintInto(sample, rectangle, layer, onWriteBelow) {
      trying(sample.trial, 'paint');
      const band = bandOf(sample, rectangle);
      const reads = planesRead(effect);
      const below = reads.length > 0 ? belowOf(sample, reads, band) : undefined;
      const before = below && onWriteBelow ? structuredClone(below) : undefined;
      const watch = bench.drawn && watchFromNow();
      try {
        refusePromise(effect.paint(sample.model, band, layer as never, below));
      } finally {
        note(bench, sample.trial, watch);
      }
      const place = before && dataDifference(before, below, 'below');
      if (place) onWriteBelow?.(place);
    },
    paint(sample, rectangle) {
      return bench.paintAnyhow(sample, rectangle);
    },
    paintAnyhow(sample, rectangle) {
      const { width, height } = rectangle;
      try {
        const layer = neutralLayer(sample.planes, width, height);
        bench.paintInto(sample, rectangle, layer);
        return layer;
      } catch (error) {
        const lent = neutralLayer(PLANE_NAMES, width, height);
        try {
          bench.paintInto(sample, rectangle, lent);
        } catch {
          throw thrown(bench, sample.trial, 'paint', error);
        }
        return pick(lent, sample.planes);
      }
    },
  };
  return bench;
}

function note({ drawn }: Bench, trial: Trial, watch: (() => Trapped[]) | undefined): void {
  for (const { name } of watch?.() ?? []) if (drawn && !drawn.has(name)) drawn.set(name, trial);
}

/** A rectangle of pixels as a band at the sample's density, frozen as the host's own are. */
export function bandOf({ grid }: Sample, rectangle: Rectangle): Band {
  return Object.freeze({ ...rectangle, mmPerPixelX: grid.mmPerPixelX, mmPerPixelY: grid.mmPerPixelY });
}

/** The same sample at another density: models know nothing of pixels. */
export function atDensity(sample: Sample, pixelsPerMm: number): Sample {
  const trial = { ...sample.trial, pixelsPerMm };
  return { ...sample, trial, grid: gridOfTrial(trial) };
}

/** What an effect threw, as a failure of the setting it was called with. */
export function thrown({ remedyFor }: BenchOptions, trial: Trial, stage: Stage, error: unknown): Failed {
  return new Crashed(trial, {
    expected: stage === 'load' ? 'a module that loads' : `${stage} to finish`,
    received: describeThrown(error).replace(/\.$/, ''),
    remedy: remedyFor?.(error) ?? remedyOfKind(error) ?? remedyAt(stage),
  });
}

/** The engine's word for it does not say what to look for. */
function remedyOfKind(error: unknown): string | undefined {
  return error instanceof RangeError && /call stack/.test(error.message) ? HINTS.stack : undefined;
}

function remedyAt(stage: Stage): string {
  return stage === 'load'
    ? 'Mend the module and run again.'
    : `Mend ${stage} for this setting; to refuse a setting, throw a Fault of kind usage that says why.`;
}

type Hooks = Pick<SettingOptions, 'isCancelled' | 'onProgress'>;

/** What an effect may throw: the end of a render that was given up, and a refusal in plain words. */
function passOn(trial: Trial, error: unknown, hooks?: Hooks): void {
  if (hooks?.isCancelled && Fault.is(error) && error.kind === 'cancelled') throw error;
  if (Fault.is(error) && error.kind === 'usage') throw new Refused(trial, error);
}

function planesOf(bench: Bench, trial: Trial, { parameters }: Setting): readonly PlaneName[] {
  const { effect } = bench;
  if (!effect.planesFor) return effect.planes;
  let planes: readonly PlaneName[];
  try {
    planes = effect.planesFor(parameters);
  } catch (error) {
    throw thrown(bench, trial, 'planesFor', error);
  }
  const isList = Array.isArray(planes) && new Set(planes).size === planes.length;
  if (isList && planes.every((name) => effect.planes.includes(name))) return planes;
  throw new Failed(trial, {
    expected: `planesFor to answer with some of the declared planes, each once, ${effect.planes.join(', ')}`,
    received: Array.isArray(planes) ? planes.join(', ') : String(planes),
    remedy: 'Declare in "planes" every plane that any values may need.',
  });
}

function watchUse(setting: Setting): { watched: Setting; used: Set<PropertyKey> } {
  const used = new Set<PropertyKey>();
  const watched = new Proxy(setting, {
    get(target, name, receiver) {
      used.add(name);
      return Reflect.get(target, name, receiver);
    },
  });
  return { watched, used };
}

function thaw(setting: Setting): Setting {
  return { ...setting, parameters: structuredClone(setting.parameters), box: structuredClone(setting.box) };
}

function pick(layer: AnyLayer, planes: readonly PlaneName[]): AnyLayer {
  const { width, height } = layer;
  return { width, height, ...Object.fromEntries(planes.map((name) => [name, layer[name]])) };
}
