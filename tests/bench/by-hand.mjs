// Which W3C modes come closest to what the host lays? For every amount the best source colour of 256 is
// looked for over a ramp of artwork greys, and the error over all amounts is printed, in steps of 255.
// Run: npm run build && node tests/bench/by-hand.mjs
import { blendColours, decodeSrgb, encodeSrgb } from '../../dist/index.js';

const RAMP = Array.from({ length: 33 }, (_, k) => k / 32);
const SOURCES = Array.from({ length: 256 }, (_, k) => k / 255);
const blend = (mode, under, source) => blendColours(mode, [under, under, under], [source, source, source])[0];
const clamp = (value) => Math.min(1, Math.max(0, value));

/** What each plane does to an artwork value, and over which amounts the built-in effects use it. */
const PLANES = {
  'shade 0.4 to 1': { from: 0.4, to: 1, lay: (e, s) => encodeSrgb(clamp(s * decodeSrgb(e))) },
  'shade 1 to 1.5': { from: 1, to: 1.5, lay: (e, s) => encodeSrgb(clamp(s * decodeSrgb(e))) },
  'load 0.1 to 0.5': { from: 0.1, to: 0.5, lay: (e, a) => encodeSrgb(clamp(decodeSrgb(e) ** a)) },
  'load 0.5 to 2': { from: 0.5, to: 2, lay: (e, a) => encodeSrgb(clamp(decodeSrgb(e) ** a)) },
};
const MODES = [
  'multiply',
  'screen',
  'color-dodge',
  'color-burn',
  'hard-light',
  'overlay',
  'soft-light',
  'darken',
  'lighten',
];

for (const [name, { from, to, lay }] of Object.entries(PLANES)) {
  const amounts = Array.from({ length: 31 }, (_, k) => from + ((to - from) * k) / 30);
  const figures = MODES.map((mode) => {
    const table = SOURCES.map((source) => RAMP.map((under) => blend(mode, under, source)));
    const errors = amounts.flatMap((amount) => {
      const wanted = RAMP.map((under) => lay(under, amount));
      const rows = table.map((row) => row.map((value, k) => Math.abs(value - wanted[k]) * 255));
      const square = (row) => row.reduce((sum, error) => sum + error * error, 0);
      return rows.reduce((best, row) => (square(row) < square(best) ? row : best));
    });
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    return { mode, mean, largest: Math.max(...errors) };
  });
  figures.sort((a, b) => a.mean - b.mean);
  console.log(name);
  for (const { mode, mean, largest } of figures)
    console.log(`  ${mode.padEnd(12)} mean ${mean.toFixed(1).padStart(5)}  largest ${largest.toFixed(0)}`);
}
