import type { Lab } from './lab.ts';

const DEGREE = Math.PI / 180;
/** 25^7, the pivot of both chroma terms. */
const PIVOT = 25 ** 7;

/**
 * The CIEDE2000 colour difference with kL = kC = kH = 1. About 1 is just seen side by side.
 * Equation numbers are those of Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula",
 * Color Research and Application 30 (2005).
 */
export function colourDifference(first: Lab, second: Lab): number {
  const meanChroma = (chromaOf(first.a, first.b) + chromaOf(second.a, second.b)) / 2; // (2), (3)
  const stretch = 1.5 - 0.5 * chromaShare(meanChroma); // 1 + G of (4)
  const [a1, a2] = [first.a * stretch, second.a * stretch]; // (5)
  const [chroma1, chroma2] = [chromaOf(a1, first.b), chromaOf(a2, second.b)]; // (6)
  const [hue1, hue2] = [hueOf(a1, first.b), hueOf(a2, second.b)]; // (7)

  // Beside a grey the hues mean nothing, and do nothing: (11) is 0 whatever they are.
  const turn = shortTurn(hue2 - hue1); // (10)
  const dL = second.L - first.L; // (8)
  const dC = chroma2 - chroma1; // (9)
  const dH = 2 * Math.sqrt(chroma1 * chroma2) * Math.sin((turn / 2) * DEGREE); // (11)

  const lightness = (first.L + second.L) / 2; // (12)
  const chroma = (chroma1 + chroma2) / 2; // (13)
  const hue = meanHue(hue1, hue2); // (14)
  const t =
    1 -
    0.17 * Math.cos((hue - 30) * DEGREE) +
    0.24 * Math.cos(2 * hue * DEGREE) +
    0.32 * Math.cos((3 * hue + 6) * DEGREE) -
    0.2 * Math.cos((4 * hue - 63) * DEGREE); // (15)
  const rotation = 30 * Math.exp(-(((hue - 275) / 25) ** 2)); // (16)
  const lightnessScale = lightnessWeight(lightness);
  const chromaScale = 1 + 0.045 * chroma; // (19)
  const hueScale = 1 + 0.015 * chroma * t; // (20)
  const twist = -Math.sin(2 * rotation * DEGREE) * 2 * chromaShare(chroma); // (17), (21)

  const [l, c, h] = [dL / lightnessScale, dC / chromaScale, dH / hueScale];
  return Math.sqrt(l * l + c * c + h * h + twist * c * h); // (22)
}

/**
 * A figure that the CIEDE2000 difference is never below, at a tenth of the cost: no angles.
 *
 * dC^2 + dH^2 is the squared distance in the (a', b) plane, and a' is nowhere closer together than
 * a. SH stays under SC, since T of (15) is at most 1.93. By (16), (17) and (21) the twist is at most
 * 2 sin 60 degrees times the chroma's share, and c h at most (c^2 + h^2) / 2.
 */
export function leastDifference(first: Lab, second: Lab): number {
  const chroma = 0.75 * (chromaOf(first.a, first.b) + chromaOf(second.a, second.b)); // 1 + G of (4) is at most 1.5
  const scale = 1 + 0.045 * chroma;
  const [dL, da, db] = [second.L - first.L, second.a - first.a, second.b - first.b];
  const l = dL / lightnessWeight((first.L + second.L) / 2);
  const untwisted = 1 - Math.sin(60 * DEGREE) * chromaShare(chroma);
  return Math.sqrt(l * l + (untwisted * (da * da + db * db)) / (scale * scale));
}

function chromaOf(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}

function lightnessWeight(lightness: number): number {
  const square = (lightness - 50) * (lightness - 50);
  return 1 + (0.015 * square) / Math.sqrt(20 + square); // (18)
}

function chromaShare(chroma: number): number {
  const cube = chroma * chroma * chroma;
  const seventh = cube * cube * chroma;
  return Math.sqrt(seventh / (seventh + PIVOT));
}

/** Degrees in 0..360; 0 for grey. */
function hueOf(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const angle = Math.atan2(b, a) / DEGREE;
  return angle < 0 ? angle + 360 : angle;
}

function shortTurn(turn: number): number {
  if (turn > 180) return turn - 360;
  return turn < -180 ? turn + 360 : turn;
}

function meanHue(hue1: number, hue2: number): number {
  const sum = hue1 + hue2;
  if (Math.abs(hue1 - hue2) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}
