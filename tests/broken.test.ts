import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type AnyEffect, defineEffect } from '../src/effect/index.ts';
import {
  CHECKS,
  type CheckName,
  describeFailures,
  type Failure,
  importedCopies,
  type ProofReport,
  proveEffect,
} from '../src/effect/prove/index.ts';
import { pinProcess } from '../src/host/threads/pin-process.ts';
import { workClock } from '../src/host/threads/work-clock.ts';
import dimmed from './broken/dimmed.ts';
import dyed from './broken/dyed.ts';
import { CAUGHT_BY, CAUGHT_IN_A_THREAD, NEEDS_WHOLE, SLOW } from './broken/list.ts';
import { ripple, shadeAt } from './broken/ripple.ts';

/** What is left of the parameters where the defaults keep the promise: each of these is needed to break it. */
const SMALLEST: Readonly<Record<string, object>> = {
  'beyond-the-screen': { warp: '#ff0000', weft: '#0000ff' },
  'evened-heights': { heights: [0.5, -0.5, 0.5, -0.5] },
  'first-of-a-letter': { depths: 'A77 B4 A20 B12' },
  'hardly-seen': { depth: 0.4 },
  'heavy-extreme': { waves: 9 },
  'refused-half': { depth: 0.36 },
  'scaled-again': { height: 1 },
  'sorted-as-text': { levels: [2.36, 14.9246, 8.04922] },
  'turned-marks': { depths: '1,10,10!' },
  'undeclared-at-end': { waves: 9 },
  'writes-at-an-end': { waves: 9 },
  'bare-region': { apart: 2 },
  'combined-negative': { height: 1, depth: 0.4 },
  'all-pairs': { apart: 1.5 },
  'decimal-colour': { ink: '#ffffff' },
  'extreme-nan': { height: 0 },
  'flat-swatch': { cloth: 'proof-flat.png' },
  'idle-picture': { cloth: 'proof-noise.png' },
  'dead-colour': { tone: '#806040' },
  'dead-half': { tone: 1 },
  'dead-number': { tone: 0.5 },
  'dead-option': { tone: 'darker' },
  'dead-switch': { tone: true },
  'first-digit': { depths: 'A35 B11 A61 B36 A20 B10 A28 B96' },
  'first-entry-plane': { heights: [0, 0.4] },
  'gated-chance': { height: 1 },
  'first-forty': { depths: 'A77 B34' },
  'first-words': { depths: 'A45 B14 A35 B36 A20 B69' },
  'in-steps': { height: 0.3 },
  'top-tenth': { height: 1 },
  'many-crash': { waves: 9 },
  'chance-between': { depth: 0.004 },
  'gated-start': { depth: 0.4, waves: 1 },
  'middle-infinite': { waves: 5 },
  'one-large-cell': { patch: 14 },
  'near-the-end': { height: 0.99 },
  'no-threads': { sett: 'A0' },
  'odd-by-turns': { order: 'turns' },
  'pair-period': { depth: 0.4, waves: 9 },
  'pair-start': { depth: 0, waves: 9 },
  'costly-extreme': { waves: 9 },
  'turned-back': { direction: 50 },
  'turns-back': { light: 90 },
  'unasked-plane': { height: 0 },
  'dead-quarter': { tone: 1 },
  'linear-colour': { ink: '#808080' },
  'lost-blue': { ink: '#2c4aff' },
  'lost-faint': { dye: 0.299 },
  'lost-plane': { height: 0 },
  'lost-plane-pair': { height: 0, depth: 0 },
  'multiplied-tint': { ink: '#ffffff' },
  'runs-too-far': { wet: 4, uneven: 2 },
  'lone-ink': { inks: ['#ffffff'] },
  'raised-alone': { heights: [-0.25, -0.5] },
  'short-list': { heights: [1, 0.3, 0.7, 1, 0.3, 0.7, 1, 1] },
  'short-palette': { inks: ['#2c4a7c', '#8a5a2c', '#2c4a7c', '#8a5a2c', '#ffffff'] },
  'swapped-channels': { ink: '#ff4a7c' },
  'idle-preset': { depth: 0.2 },
  'joined-key': { depths: [1, 11] },
  'unseen-preset': { bleach: 0.9 },
  'recased-preset': { inks: ['#2C4A7C', '#8A5A2C'] },
  'twin-presets': { height: 0.5, depth: 0.4 },
  'zero-default': { tone: 0 },
  'straight-sketch': { turned: true },
  'zero-power': { power: 0 },
  'white-left-out': { ink: '#ffffff' },
  'unsaid-light': { light: 45 },
};
/** What the sentence must say of some, so that it helps. */
const SAYS: Readonly<Record<string, RegExp>> = {
  'all-pairs': /area to the power of [12]\.\d.*pairs of all with all.*indexPoints/,
  'any-case': /"rose" and "Rose", which differ in case alone/,
  'asked-rounded': /"height" to be reported as asked 0.5 ratio/,
  'artwork-scratch': /a write to model\.alpha\[0\]/,
  'asks-the-net': /a call of fetch\./,
  'chance-between': /a call of Math\.random\. Draw from random/,
  'many-crash': /prepare to finish, but received TypeError.*It comes of waves=9: at waves=3 it ends/,
  'sketch-chance': /a call of Math\.random\. Not as a sketch but finished this is kept\. Draw from random/,
  'clamps-below': /a write to below\.relief\[\d+\].*below\.relief\.slice\(\)/,
  'first-entry-plane': /relief, which planesFor leaves out at heights=/,
  'coarse-places': /homeParts/,
  'bare-region': /a region of it is bare.*Uint16Array/,
  'cut-stripe': /whole number of stripes(?!.*Draw nothing along)/,
  'cut-towards-zero': /no place is negative.*Math.floor/,
  'dark-line': /a line.*where nothing of the kind shows inside(?!.*fieldShape).*Draw nothing along the edges/,
  'decimal-colour': /#ffffff has more red than #204060.*hexadecimal/,
  'dead-half': /upper half of tone, 0.5 to 1 ratio/,
  'dead-quarter': /highest quarter of tone, 0.75 to 1 ratio.*narrow the range to 0 to 0.75 ratio/,
  'eight-bits': /from seeds .* where there are some 300 textures in all.*Uint8Array/,
  'in-steps': /tenth .*of height/,
  'top-tenth': /highest tenth of height, 0.9 to 1 ratio/,
  'first-forty': /the number \d+ in depths, from 54 to 99,/,
  'first-words': /the end of a long text in depths/,
  'idle-plane': /load, which is declared.*Take load out of "planes"/,
  'idle-picture': /Expected cloth to change what is painted/,
  'picture-scratch': /a write to samples\[0\] of proof-\w+\.png.*samples\.slice\(\)/,
  'spoilt-artwork': /a write to artwork\.red\[0\].*artwork\.red\.slice\(\)/,
  'spoilt-picture': /a write to samples\[\d+\] of proof-brushed\.png.*Other steps and threads/,
  'extreme-nan': /It comes of height=0: at height=0.5 all is well.*look in prepare/,
  'flat-artwork': /NaN .*It is in the model already/,
  'few-samples': /It comes of the density, 1000.76 dpi: at 203.2 dpi all is well/,
  'faint-sketch': /a contrast of shade of 0\.\d+ after 0\.\d+/,
  'first-digit':
    /the second digit of a number in depths to change .* at "A.*" and at "A[^"]*", beside.*let the pattern allow no more than is read/,
  'first-density': /without a look at the density of the band/,
  'first-depth': /without a look at depth/,
  'first-seed': /without a look at the seed/,
  'box-in-whole-mm': /without a look at the size of the box to its last digit/,
  'rounded-key':
    /after depth=0\.\d+ was prepared and painted first.*without a look at all of depth, to its last digit/,
  'joined-key': /without a look at where one number of depths ends and the next begins/,
  'refuses-bricks': /a texture over layout brick:1\/2, as over drop:1\/2/,
  'seed-blanks': /"rose 1"/,
  'unseen-preset': /preset rosewood.*the very texture that is painted by default.*switch/,
  'seed-letters': /without a look at each letter of the seed/,
  'hollow-middle': /shade to hold finite numbers.*received NaN at pixel \(-?\d+, -?\d+\)/,
  'idle-preset': /preset deep to change what is painted.*by default/,
  'half-letters': /16 of their bits/,
  'left-begun': /the same texture after a render that was given up.*in finally/,
  'linear-colour': /numbers of light.*decode nothing/,
  'lost-blue': /blue of ink to change what is painted/,
  'lost-faint': /leave load out only where nothing comes of it: at dye=0.29\d* it is seen/,
  'lost-plane': /at height=0 .*Let planesFor ask the parameter on which load hangs/,
  'multiplied-tint': /multiplied by the alpha/,
  'moody-seeds': /of one kind from all seeds.*a mean of shade.*how dark/,
  'no-cell-left': /drop:1\/3/,
  'no-number': /division by zero/,
  'no-sevenths': /In layout drop:1\/2 this is kept/,
  'no-threads': /It comes of sett=A0: at sett="A8 B4" all is well.*look in prepare/,
  'number-seed': /as whole numbers of 32 bits are one/,
  'one-in-twelve': /It comes of seed .*may be 0, as below/,
  'odd-by-turns': /in \d sizes of repeat .* and not in others.*parity of a cell/,
  'one-coat': /a mean of shade of 0\.\d+ after 0\.\d+, .*as many things as the finished/,
  'odd-chequer': /in \d sizes of repeat .* and not in others.*parity of a cell/,
  'other-patches': /large patches.*a stream of its own/,
  'rare-root': /NaN at pixel .*in few places of a large tile.*Clamp what goes into a root/,
  'recased-preset': /preset sepia to change what is painted.*by default/,
  'relief-in-microns': /micrometres are divided by 1,000/,
  'runs-too-far': /bleed to hold finite mm from 0 to 8,.*of wet=4 and uneven=2 together: .*clamp it/,
  'shift-in-pixels': /in pixels: it is in mm/,
  'short-list': /entry 8 of heights, in a list of 8,/,
  'short-palette': /entry 5 of inks, in a list of 5,/,
  'short-seed': /first 3000 letters in common/,
  'sorted-palette': /\[\.\.\.parameters\.colours\] is a copy/,
  'spread-field': /Maximum call stack.*Math\.max\(\.\.\.values\).*in a loop/,
  'square-pixels': /closes where pixels are square.*mmPerPixelY/,
  'straight-sketch': /comes of turned=.*: at the defaults the sketch is right/,
  'swapped-channels': /red of ink to change red of tint/,
  'strong-seeds': /of one kind from all seeds.*a contrast of shade.*how strong/,
  'swapped-report': /"ground".*value of depth.*The two are swapped/,
  'swapped-words': /what is said of plain to be said of it.*"slanting as twill".*Say one for each/,
  'table-of-4096': /In a box of .* it is sound: look for a table/,
  'thin-line': /Only a thin line differs.*homeParts/,
  'thinned-dots': /of another tone.*of what it does to the artwork/,
  'three-letters': /first 3 letters in common/,
  'tiny-infinite': /It comes of the size, 3 x 2 mm: .*comes to 0 in a tiny box/,
  'turned-back': /direction turns to turn clockwise.*no minus before it/,
  'turns-back': /the light of light to turn clockwise.*0 from the right, 90 from below/,
  'twin-presets': /preset calm.*the values of preset deep/,
  'unit-twice': /no unit after \{depth\}.*Leave "%" out/,
  'unsaid-light': /Write lightFrom: 'light'/,
  'unstable-step': /comes of prepare.*too long to be stable/,
  'walks-all-points': /a band costs as much as the whole box.*indexPoints/,
  'white-left-out': /leave tint out only where nothing comes of it: at ink=#ffffff it is seen/,
  'whole-box': /a band costs as much as the whole box/,
  'zero-default': /tone \|\| 0\.4/,
};
/** What changes nothing has no picture. */
const SHOWS_NOTHING =
  /^(idle-(picture|plane)|in-steps|top-tenth|first-(forty|words)|many-crash|dead-|first-digit|spread-field|short-(list|palette)|lone-ink|raised-alone|lost-blue|swapped-channels|decimal-colour|zero-default|(idle|recased)-preset|twin-presets|refuses-(bricks|tiles)|refused-half|hardly-seen|sketch-alone|struck-plane|first-of-a-letter|sorted-as-text|swapped-report|asked-rounded)/;
/** There is nothing to see of these. */
const INVISIBLE: readonly CheckName[] = ['abort', 'cost', 'model', 'runs', 'sentences', 'setting'];

/** The others would try less on a busy machine. */
const TIMED: readonly CheckName[] = ['abort', 'cost'];
const now = () => performance.now();
const CLOCKS = { now, work: workClock(now, process.cpuUsage) };

function failuresOf({ results }: ProofReport): [CheckName, Failure][] {
  return results.flatMap((result) => (result.status === 'failed' ? [[result.check, result.failure]] : []));
}

it('has every effect of the shelf on its list', () => {
  const files = readdirSync(new URL('broken', import.meta.url)).map((file) => file.replace('.ts', ''));
  expect(files.filter((name) => !['list', 'ripple', 'dyed', 'dimmed', SLOW].includes(name)).sort()).toEqual(
    [...Object.keys(CAUGHT_BY), ...Object.keys(CAUGHT_IN_A_THREAD)].sort(),
  );
});

it('proves the sound twin of them all', async () => {
  const report = await proveEffect(ripple, CLOCKS);
  expect(report.proven, describeFailures(report)).toBe(true);
  const left = report.results.filter(({ status }) => status === 'not applicable').map(({ check }) => check);
  expect(left).toEqual(['memory', 'presets', 'sentences', 'sketch']);
});

it.each([
  ['take a picture', dyed],
  ['read the artwork', dimmed],
])('proves the sound twin of those that %s', async (_, effect: AnyEffect) => {
  const report = await proveEffect(effect, { quick: true, ...CLOCKS });
  expect(report.proven, describeFailures(report)).toBe(true);
});

it('forgives the last bits of places far out', async () => {
  const rounded = defineEffect({
    ...ripple,
    paint(model, band, layer) {
      for (let j = 0, k = 0; j < band.height; j++) {
        for (let i = 0; i < band.width; i++, k++) {
          const x = Math.fround((band.x + i + 0.5) * band.mmPerPixelX);
          const y = Math.fround((band.y + j + 0.5) * band.mmPerPixelY);
          layer.shade[k] = shadeAt(model, x, y, band);
        }
      }
    },
  });
  const report = await proveEffect(rounded, { quick: true });
  expect(report.proven, describeFailures(report)).toBe(true);
});

describe('each broken effect is caught by its check, and by none that this one needs', () => {
  it.each(Object.entries(CAUGHT_BY))('%s: %s', async (name, check) => {
    const { href } = new URL(`broken/${name}.ts`, import.meta.url);
    const runCopy = importedCopies(
      async (copy) => (await import(/* @vite-ignore */ `${href}?copy=${copy}`)).default,
      pinProcess,
    );
    const checks = [...CHECKS.find((one) => one.name === check)!.needs, check];
    const { default: effect, presets } = await import(`./broken/${name}.ts`);
    const report = await proveEffect(effect, {
      quick: !NEEDS_WHOLE.includes(name),
      ...(TIMED.includes(check) && CLOCKS),
      runCopy,
      presets,
      checks,
    });
    expect(
      failuresOf(report).map(([failed]) => failed),
      describeFailures(report),
    ).toEqual([check]);
    const [, failure] = failuresOf(report)[0];
    expect(failure.setting.parameters).toEqual(SMALLEST[name] ?? {});
    expect(failure.sentence).toBe(
      `Expected ${failure.expected}, but received ${failure.received}. ${failure.remedy}`,
    );
    expect(failure.sentence).toMatch(SAYS[name] ?? /./);
    if (INVISIBLE.includes(check) || SHOWS_NOTHING.test(name)) return;
    const { pixels, width, height } = failure.picture!;
    expect(pixels).toHaveLength(width * height * 4);
    expect(new Set(pixels).size).toBeGreaterThan(2);
  });
});
