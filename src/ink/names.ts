import { labOfBytes } from '../colour/lab.ts';
import type { Ink } from './card.ts';

/** Hues of Lab in plain words, each up to an angle in degrees: our own table. */
const HUES: readonly (readonly [number, string])[] = [
  [12, 'rose'],
  [42, 'red'],
  [66, 'orange'],
  [86, 'ochre'],
  [108, 'yellow'],
  [174, 'green'],
  [252, 'teal'],
  [296, 'blue'],
  [322, 'violet'],
  [345, 'plum'],
  [361, 'rose'],
];
/** Chroma under which a colour is a grey, and under which it leans to its hue only. */
const GREY = 4;
const LEANING = 13;

/** A name in plain words for an sRGB colour, 0..255: "deep green", "pale ochre", "black". */
export function nameOfColour(colour: Ink['colour']): string {
  const { L, a, b } = labOfBytes(colour);
  const chroma = Math.hypot(a, b);
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  if (L < 8) return 'black';
  if (chroma < GREY) return greyName(L);
  const word = hueName(L, chroma, hue);
  if (chroma < LEANING) {
    if (L > 88) return word === 'yellow' || word === 'ochre' ? 'cream' : `${word} white`;
    return L < 22 ? `${word} black` : `${toneName(L, 0)}${word} grey`;
  }
  return `${toneName(L, chroma)}${word}`;
}

function greyName(lightness: number): string {
  if (lightness > 95) return 'white';
  if (lightness > 80) return 'pale grey';
  if (lightness > 60) return 'light grey';
  return lightness > 35 ? 'grey' : 'dark grey';
}

function hueName(lightness: number, chroma: number, hue: number): string {
  const word = HUES.find(([end]) => hue < end)![1];
  const isWarm = hue >= 30 && hue < 86;
  if (isWarm && lightness < 45 && chroma < 50) return 'brown';
  if (hue >= 60 && hue < 95 && chroma < 32 && lightness >= 45) return lightness > 80 ? 'cream' : 'sand';
  if (word === 'orange' && lightness < 58) return 'rust';
  if (word === 'orange' && lightness > 66 && chroma < 45) return 'peach';
  if ((word === 'yellow' || word === 'ochre') && lightness < 50) return 'olive';
  if (word === 'red' || word === 'rose') return lightness > 62 ? pinkName(hue) : word;
  if (word === 'teal' && lightness > 62) return 'sky blue';
  if (word === 'plum' && lightness > 68) return 'lilac';
  return word;
}

function pinkName(hue: number): string {
  return hue > 25 && hue < 180 ? 'peach' : 'pink';
}

function toneName(lightness: number, chroma: number): string {
  if (lightness < 24) return 'dark ';
  if (lightness < 42) return 'deep ';
  if (lightness > 84) return 'pale ';
  if (lightness > 70) return chroma > 55 ? 'bright ' : 'light ';
  if (chroma > 70) return 'bright ';
  return chroma > 0 && chroma < 24 ? 'dull ' : '';
}

/** Names for some colours, no two alike: of colours that would be called the same the later ones are numbered. */
export function namesOfColours(colours: readonly Ink['colour'][], taken: readonly string[] = []): string[] {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  return colours.map((colour) => {
    const plain = nameOfColour(colour);
    let name = plain;
    for (let number = 2; used.has(name); number++) name = `${plain} ${number}`;
    used.add(name);
    return name;
  });
}
