import { useEffect, useRef, useState } from 'preact/hooks';
import type { OfferedEffect } from '../../words/begin.ts';
import type { Laying } from '../../words/work.ts';
import { usePage } from '../state/context.ts';
import { smallOrder } from './small-looks.ts';

interface Properties {
  readonly laying: Laying;
  /** CSS px. */
  readonly side: number;
  /** What it shows of the tile, mm; the whole tile where absent. */
  readonly sideMm?: number;
}

/** A small cloth: the design with a laying, for choosing by looking. Decoration to a screen reader. */
export function SmallCloth({ laying, side, sideMm }: Properties) {
  const { desk, small } = usePage();
  const place = useRef<HTMLCanvasElement>(null);
  const [state, setState] = useState<'coming' | 'there' | 'failed'>('coming');
  const work = desk.work.value;
  const order = smallOrder(work, laying, Math.round(side * Math.min(2, devicePixelRatio)), sideMm);
  const key = JSON.stringify(order);
  useEffect(() => {
    let isWanted = true;
    const revision = String(desk.tile.peek()?.revision);
    small
      .see(order, { revision, cost: costOf(laying, desk.effects.peek()), isWanted: () => isWanted })
      .then((picture) => {
        if (!isWanted || !place.current) return;
        draw(place.current, picture);
        setState('there');
      })
      .catch(() => isWanted && setState('failed'));
    return () => {
      isWanted = false;
    };
  }, [key]);
  return (
    <span
      class={`small-cloth ${state}`}
      style={{ width: `${side}px`, height: `${side}px` }}
      aria-hidden="true"
    >
      <canvas ref={place} />
      {state === 'failed' && <span class="failed-word">not drawn</span>}
    </span>
  );
}

/** Covers the square with the picture's middle. */
function draw(canvas: HTMLCanvasElement, picture: HTMLCanvasElement): void {
  const side = Math.min(picture.width, picture.height);
  canvas.width = side;
  canvas.height = side;
  const left = (picture.width - side) / 2;
  const top = (picture.height - side) / 2;
  canvas.getContext('2d')!.drawImage(picture, -left, -top);
}

/** Effects that move paint work longest at their first look. */
function costOf({ steps }: Laying, effects: ReadonlyMap<string, OfferedEffect>): number {
  const planes = steps.flatMap(({ effect }) => effects.get(effect)?.effect.planes ?? []);
  return planes.filter((plane) => plane === 'shift' || plane === 'bleed').length;
}
