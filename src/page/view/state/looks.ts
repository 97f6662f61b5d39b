import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Look, LookOrder } from '../../words/look.ts';
import { type Api, Refusal } from '../api.ts';
import type { Cloth, Shown } from '../cloth/cloth.ts';
import { needsNewLook, type WantedLook, wantedLook } from '../cloth/wanted-look.ts';
import type { Desk } from './desk.ts';

/** A finished picture that comes within this needs no sketch before it, ms. */
const AT_ONCE_MS = 120;
/** What a picture is thought to take before one of its kind has come, ms. */
const UNKNOWN_MS = 1000;
/** Of the density, for a first picture. */
const FIRST_SHARE = 0.5;
const LOST =
  'The program that draws the cloth does not answer. Start it again with "tenter open"; nothing is lost.';

/** What came of the last look. */
export interface LookFacts {
  readonly look: Look;
  /** The share of the whole cloth that each masked step lies on, 0..1, by the step's id, as far as it is known. */
  readonly laidOn: Look['laidOn'];
  /** True where the finished picture is still to come. */
  readonly isSketch: boolean;
}

/**
 * Keeps the cloth as the work says it: coarse first where the finished picture takes long, then fine. What is out of
 * date is given up at once, but a first picture on its way may come: whoever drags a value must see something.
 */
export class Looking {
  readonly facts: Signal<LookFacts | undefined> = signal(undefined);
  /** True while a picture is on its way. */
  readonly isBusy: Signal<boolean> = signal(false);
  readonly #desk: Desk;
  readonly #cloth: Cloth;
  readonly #api: Api;
  /** Of what is laid now. */
  #key = '';
  /** What the cloth shows finished of it, as it was asked for. */
  #shown: WantedLook[] = [];
  #order?: LookOrder;
  #fine?: AbortController;
  #isFirstUnderWay = false;
  /** ms that a finished picture took, by what was laid. */
  readonly #took = new Map<string, number>();

  constructor(desk: Desk, cloth: Cloth, api: Api, isBare: ReadonlySignal<boolean>) {
    this.#desk = desk;
    this.#cloth = cloth;
    this.#api = api;
    effect(() => {
      this.#order = orderOf(desk, isBare.value);
      const { size, layout } = this.#order;
      cloth.repeat.value = { ...size, layout };
      const key = JSON.stringify([this.#order, desk.tile.value?.revision]);
      if (key !== this.#key) this.#shown = [];
      this.#key = key;
      if (cloth.room.value.width > 0 && cloth.view.value) this.#update();
    });
  }

  #wanted(): WantedLook {
    const { view, room, repeat } = this.#cloth;
    return wantedLook(view.peek(), room.peek(), repeat.peek(), devicePixelRatio);
  }

  #update(): void {
    const wanted = this.#wanted();
    if (!needsNewLook(this.#shown, wanted, this.#cloth.repeat.peek())) return;
    this.#fine?.abort();
    if (!this.#isFirstUnderWay) void this.#bring(wanted);
  }

  async #bring(wanted: WantedLook): Promise<void> {
    const key = this.#key;
    const isFresh = this.#shown.length === 0;
    this.isBusy.value = true;
    // Something to look at, before anything has been worked out.
    const hasSteps = this.#order!.laying.steps.length > 0;
    if (hasSteps && !this.#cloth.period.peek() && !wanted.part) await this.#bringBare(wanted.density);
    if (isFresh && this.#expected() > AT_ONCE_MS) {
      await this.#bringFirst(wanted);
      // What was asked meanwhile goes on from here.
      if (this.#key !== key || needsNewLook([wanted], this.#wanted(), this.#cloth.repeat.peek())) {
        this.#update();
        return;
      }
    }
    const mine = new AbortController();
    this.#fine = mine;
    await this.#bringFine(wanted, mine.signal);
    if (wanted.part && isFresh && !mine.signal.aborted)
      await this.#bringFine({ density: wanted.density }, mine.signal);
    if (!mine.signal.aborted) this.isBusy.value = false;
  }

  async #bringFirst({ density, part }: WantedLook): Promise<void> {
    this.#isFirstUnderWay = true;
    const order = { ...this.#order!, part, density: density * FIRST_SHARE, quality: 'sketch' as const };
    const came = await this.#see(order, new AbortController().signal);
    this.#isFirstUnderWay = false;
    if (came) this.#show(came, part !== undefined, true);
  }

  async #bringBare(density: number): Promise<void> {
    this.#isFirstUnderWay = true;
    const laying = { ...this.#order!.laying, steps: [] };
    const came = await this.#see({ ...this.#order!, laying, density }, new AbortController().signal);
    this.#isFirstUnderWay = false;
    if (came) this.#show(came, false, true);
  }

  async #bringFine(wanted: WantedLook, abort: AbortSignal): Promise<void> {
    const started = performance.now();
    const kind = this.#kind();
    const came = await this.#see({ ...this.#order!, ...wanted }, abort);
    if (!came || abort.aborted) return;
    this.#took.set(kind, performance.now() - started);
    this.#shown.push(wanted);
    this.#show(came, wanted.part !== undefined, false);
  }

  #show(shown: Shown, isPart: boolean, isSketch: boolean): void {
    if (isPart) this.#cloth.part.value = shown;
    else {
      // A part of what is laid now goes on lying over its period.
      if (!this.#shown.some(({ part }) => part)) this.#cloth.part.value = undefined;
      this.#cloth.period.value = shown;
    }
    // Of a part it would be the part's.
    const laidOn = isPart ? (this.facts.peek()?.laidOn ?? {}) : shown.look.laidOn;
    this.facts.value = { look: shown.look, laidOn, isSketch };
  }

  #kind(): string {
    return this.#order!.laying.steps.map(({ effect: name }) => name).join();
  }

  #expected(): number {
    if (this.#order!.laying.steps.length === 0) return 0;
    return this.#took.get(this.#kind()) ?? UNKNOWN_MS;
  }

  async #see(order: LookOrder, abort: AbortSignal): Promise<Shown | undefined> {
    try {
      const { look, pixels } = await this.#api.look(order, abort);
      this.#desk.trouble('look');
      return { look, picture: pictureOf(look, pixels) };
    } catch (error) {
      if (!abort.aborted) this.#desk.trouble('look', error instanceof Refusal ? error.message : LOST);
      return undefined;
    }
  }
}

function orderOf(desk: Desk, isBare: boolean): LookOrder {
  const { tile, ground, layout, size, laying, resists } = desk.work.value;
  const steps = isBare ? [] : laying.steps.filter(({ held }) => !held);
  const wanted = steps.flatMap(({ mask }) => mask?.picture ?? []);
  const named = Object.entries(resists).filter(([name]) => wanted.includes(`resist:${name}`));
  return {
    ...{ tile, ground, layout, size },
    laying: { ...laying, steps },
    resists: Object.fromEntries(named),
    density: 1,
    quality: 'finished',
  };
}

/** A canvas holds the pixels, which a browser draws from fastest. */
export function pictureOf(
  { width, height }: Look,
  pixels: Uint8ClampedArray<ArrayBuffer>,
): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  canvas.getContext('2d')!.putImageData(new ImageData(pixels, width, height), 0, 0);
  return canvas;
}
