// A cloth that stands in for the page's own: a canvas, its pointers and keys, and what lies over it.
import { effect, signal } from '@preact/signals';
import { render } from 'preact';
import type { MaskRecipe } from '../../src/host/plugins/recipe.ts';
import { Cloth, type ClothPoint } from '../../src/page/view/cloth/cloth.ts';
import type { Artwork } from '../../src/page/view/mask/artwork-colours.ts';
import { MaskControls } from '../../src/page/view/mask/mask-controls.tsx';
import { ResistControls } from '../../src/page/view/resist/resist-controls.tsx';
import type { Resist, Stroke } from '../../src/page/words/work.ts';

const cloth = new Cloth();
const resist = signal<Resist>({ strokes: [] });
const mask = signal<MaskRecipe | undefined>(undefined);
const canvas = document.querySelector('canvas')!;
const times: number[] = [];

/** 100 x 80 mm at 4 px/mm: red discs on a pale ground that darkens a little from row to row. */
const art: Artwork = {
  ...{ width: 400, height: 320, widthMm: 100, heightMm: 80, layout: 'drop:1/2', paper: '#ffffff' },
  pixels: new Uint8ClampedArray(400 * 320 * 4),
};
for (let at = 0; at < 400 * 320; at++) {
  const [x, y] = [(at % 400) / 4 - 50, Math.floor(at / 400) / 4 - 40];
  const colour = x * x + y * y < 400 ? [170, 51, 17, 255] : [243 - Math.floor((y + 40) / 8), 234, 216, 255];
  art.pixels.set(colour, at * 4);
}
cloth.repeat.value = { width: 100, height: 80, layout: 'drop:1/2' };
cloth.view.value = { left: -20, top: -10, scale: 4 };

const pointOf = (event: PointerEvent): ClothPoint => {
  const { left, top, scale } = cloth.view.value;
  return {
    x: left + event.clientX / scale,
    y: top + event.clientY / scale,
    pressure: event.pointerType === 'mouse' ? 0.5 : event.pressure || 0.5,
    turned: event.button === 2 || (event.buttons & 34) > 0,
  };
};
let isDown = false;
canvas.addEventListener('pointerdown', (event) => {
  isDown = true;
  canvas.setPointerCapture(event.pointerId);
  cloth.hand.value?.down(pointOf(event));
});
canvas.addEventListener('pointermove', (event) => {
  if (!isDown) cloth.hand.value?.hover?.(pointOf(event));
  const gathered = event.getCoalescedEvents?.() ?? [];
  if (isDown)
    for (const one of gathered.length > 0 ? gathered : [event]) cloth.hand.value?.move(pointOf(one));
});
canvas.addEventListener('pointerup', () => {
  isDown = false;
  cloth.hand.value?.up();
});
canvas.addEventListener('contextmenu', (event) => event.preventDefault());
canvas.addEventListener('keydown', (event) => {
  if (cloth.hand.value?.key?.(event.key, event.shiftKey)) event.preventDefault();
});

const tile = Object.assign(document.createElement('canvas'), { width: 400, height: 320 });
tile
  .getContext('2d')!
  .putImageData(new ImageData(art.pixels as Uint8ClampedArray<ArrayBuffer>, 400, 320), 0, 0);
function paint(): void {
  const started = performance.now();
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  const view = cloth.view.value;
  for (let column = -2; column < 5; column++) {
    for (let row = -3; row < 5; row++) {
      const [x, y] = [column * 100, row * 80 + column * 40];
      const size = [100 * view.scale, 80 * view.scale] as const;
      context.drawImage(tile, (x - view.left) * view.scale, (y - view.top) * view.scale, ...size);
    }
  }
  for (const overlay of cloth.overlays.value) {
    context.save();
    overlay(context, view);
    context.restore();
  }
  times.push(performance.now() - started);
}
let frame = 0;
effect(() => {
  cloth.view.value;
  cloth.overlays.value;
  cancelAnimationFrame(frame);
  frame = requestAnimationFrame(paint);
});
Object.assign(canvas, { width: canvas.clientWidth, height: canvas.clientHeight });
cloth.room.value = { width: canvas.width, height: canvas.height };

const onStroke = (stroke: Stroke) => {
  resist.value = { strokes: [...resist.value.strokes, stroke] };
};
const onClear = () => {
  resist.value = { strokes: [] };
};
const onColour = (hex: string) => {
  const taken = mask.value?.colours ?? [];
  const colours = taken.includes(hex) ? taken.filter((one) => one !== hex) : [...taken, hex];
  mask.value = colours.length > 0 ? { ...mask.value, colours } : undefined;
};
const onChange = (part: Partial<MaskRecipe>) => {
  mask.value = { ...mask.value, ...part };
};
const artwork = signal<Artwork | undefined>(art);
const colours = [
  { hex: '#f3ead8', share: 0.84 },
  { hex: '#aa3311', share: 0.16 },
];
const ticket = document.querySelector('#ticket')!;
const show = {
  resist: () => render(<ResistControls {...{ cloth, resist, onStroke, onClear }} />, ticket),
  mask: () => render(<MaskControls {...{ cloth, mask, colours, artwork, onColour, onChange }} />, ticket),
};
Object.assign(window, { cloth, resist, mask, show, times, artwork });
