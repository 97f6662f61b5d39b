import { render } from 'preact';
import '../../src/collection/page/main.css';
import { Cloth, type Shown } from '../../src/page/view/cloth/cloth.ts';
import { ClothEdge } from '../../src/page/view/cloth/cloth-edge.tsx';
import { ClothView } from '../../src/page/view/cloth/cloth-view.tsx';
import type { Part } from '../../src/page/words/look.ts';

/** A look as the tests make it: its pixels as base64 of RGBA. */
export interface Made {
  readonly width: number;
  readonly height: number;
  readonly part: Part;
  readonly layout: string;
  readonly pixels: string;
}

declare global {
  interface Window {
    cloth: Cloth;
    shown(made: Made): Promise<Shown>;
    /** The pixels of the cloth as base64 of RGBA, once it was drawn. */
    drawn(): Promise<{ width: number; height: number; pixels: string }>;
    /** How often the cloth was drawn. */
    draws: number;
  }
}

const cloth = new Cloth();
window.cloth = cloth;
window.draws = 0;
const clearRect = CanvasRenderingContext2D.prototype.clearRect;
CanvasRenderingContext2D.prototype.clearRect = function (...box) {
  window.draws++;
  clearRect.apply(this, box);
};

window.shown = async ({ width, height, part, layout, pixels }) => {
  const data = Uint8ClampedArray.from(atob(pixels), (letter) => letter.charCodeAt(0));
  const picture = await createImageBitmap(new ImageData(data, width, height));
  const look = { width, height, part, layout, isCoarse: false, reports: {}, laidOn: {} };
  return { look: { ...look, timings: { prepare: 0, paint: 0 } }, picture };
};

window.drawn = async () => {
  for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
  const canvas = document.querySelector<HTMLCanvasElement>('.cloth-window')!;
  const { width, height } = canvas;
  const copy = Object.assign(document.createElement('canvas'), { width, height });
  const context = copy.getContext('2d', { willReadFrequently: true })!;
  context.drawImage(canvas, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  let text = '';
  for (let i = 0; i < data.length; i += 8192) text += String.fromCharCode(...data.subarray(i, i + 8192));
  return { width, height, pixels: btoa(text) };
};

const hasEdge = new URLSearchParams(location.search).has('edge');
render(
  <main style={{ height: '100vh', position: 'relative' }}>
    <ClothView cloth={cloth} name="Trial cloth" />
    {hasEdge && (
      <div style={{ bottom: 0, insetInline: 0, position: 'absolute' }}>
        <ClothEdge cloth={cloth} repeatShows="The repeat shows little." />
      </div>
    )}
  </main>,
  document.body,
);
