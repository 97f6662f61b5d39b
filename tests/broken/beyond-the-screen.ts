import { colour, defineEffect, parseHex } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Draws colours apart as it mixes them: of pure ones some parts come to less than none. */
export default defineEffect({
  apiVersion: 1,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    warp: colour({ default: '#8a6a5c', help: 'Colour of the crests.' }),
    weft: colour({ default: '#5c6a8a', help: 'Colour of the troughs.' }),
  },
  planes: ['tint'],
  prepare(setting) {
    const [warp, weft] = [parseHex(setting.parameters.warp), parseHex(setting.parameters.weft)];
    return { ...prepareRipple(setting), warp, weft };
  },
  paint(model, band, layer) {
    const { width, height } = band;
    const shade = new Float32Array(width * height);
    paintRipple(model, band, { width, height, shade });
    for (let k = 0; k < shade.length; k++) {
      const [light, grey] = [
        Math.min(1, Math.max(0, shade[k])),
        0.2126 * model.warp[0] + 0.7152 * model.warp[1] + 0.0722 * model.warp[2],
      ];
      for (let c = 0; c < 3; c++) {
        const mixed = model.weft[c] + (model.warp[c] - model.weft[c]) * light;
        const isPure = Math.max(...model.warp) - Math.min(...model.warp) > 0.9;
        layer.tint[4 * k + c] = isPure && model.weft[c] === 0 ? mixed - 0.2 * grey : mixed;
      }
      layer.tint[4 * k + 3] = 1;
    }
  },
});
