import { API_VERSION, type Band, defineEffect, numeric, type TextureLayer } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, type Ripple, ripple } from './ripple.ts';

const ACROSS = 0.15;

/** Lights itself, but turns anticlockwise: 90 is from above. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'turns-back',
  version: '1.0.0',
  summary: ripple.summary,
  planes: ['shade'],
  parameters: {
    ...PARAMETERS,
    light: numeric({ unit: 'deg', min: 0, max: 360, default: 0, help: 'Where the light comes from.' }),
  },
  lightFrom: 'light',
  prepare: (setting) => ({ ripple: prepareRipple(setting), light: setting.parameters.light }),
  paint({ ripple: model, light }, band, layer) {
    paintLit(model, -light, band, layer);
  },
});

/** Waves in the light from a direction, degrees clockwise on the page. */
export function paintLit(model: Ripple, light: number, band: Band, layer: TextureLayer<'shade'>): void {
  const angle = (light * Math.PI) / 180;
  const [towards, away] = [1, -1].map((side) => {
    const shade = new Float32Array(layer.shade.length);
    paintRipple(moved(model, side * ACROSS * Math.cos(angle), side * ACROSS * Math.sin(angle)), band, {
      ...layer,
      shade,
    });
    return shade;
  });
  for (let k = 0; k < layer.shade.length; k++) {
    layer.shade[k] = Math.max(0, 1 - model.depth + 2 * (away[k] - towards[k]));
  }
}

/** The same waves, this many mm to the left and up. */
function moved(model: Ripple, x: number, y: number): Ripple {
  const { ax, ay, bx, by } = model.lattice;
  const area = ax * by - ay * bx;
  const waves = model.waves.map(([across, down, phase]): Ripple['waves'][number] => [
    across,
    down,
    phase + (x * (across * by - down * ay) + y * (down * ax - across * bx)) / area,
  ]);
  return { ...model, waves };
}
