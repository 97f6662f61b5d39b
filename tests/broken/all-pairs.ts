import { API_VERSION, defineEffect, numeric, poissonPoints, shortestWay } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** The nearest of all points, for each of them. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    apart: numeric({ unit: 'mm', min: 1.5, max: 30, default: 20, help: 'How far points are apart.' }),
  },
  planes: ['shade'],
  prepare(setting) {
    const { box, parameters, random } = setting;
    const { x, y } = poissonPoints(box, parameters.apart, random('points'));
    let nearest = parameters.apart * 2;
    for (let one = 0; one < x.length; one++) {
      for (let other = 0; other < x.length; other++) {
        if (other === one) continue;
        const [across, down] = shortestWay(box.lattice, x[other] - x[one], y[other] - y[one]);
        nearest = Math.min(nearest, Math.hypot(across, down));
      }
    }
    return { ...prepareRipple(setting), depth: parameters.depth + nearest * 1e-4 };
  },
  paint: paintRipple,
});
