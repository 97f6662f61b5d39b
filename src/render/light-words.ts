import { DEFAULT_LIGHT, type Light } from '../composite/light.ts';
import { trimNumber } from '../repeat/length.ts';
import type { RenderStep } from './step.ts';

/** A light of which only some numbers are said; the others are as usual. */
export type PartialLight = { readonly [Name in keyof Light]?: number };

/** The light that several places have their say in, the first of them before the others; none where none says anything. */
export function lightOf(...said: readonly (PartialLight | undefined)[]): Light | undefined {
  if (said.every((light) => light === undefined)) return undefined;
  const pick = (name: keyof Light) => said.find((light) => light?.[name] !== undefined)?.[name];
  const { direction, elevation, gloss } = DEFAULT_LIGHT;
  return {
    direction: pick('direction') ?? direction,
    elevation: pick('elevation') ?? elevation,
    gloss: pick('gloss') ?? gloss,
  };
}

/** True where a step may raise a surface, so that the light matters. */
export function isRaised(steps: readonly Pick<RenderStep, 'declares'>[]): boolean {
  return steps.some(({ declares }) => declares.planes.includes('relief'));
}

/** True where a light that is stated changes something: on a raised surface, or for an effect that lights itself. */
export function heedsLight(steps: readonly Pick<RenderStep, 'declares'>[]): boolean {
  return isRaised(steps) || steps.some(({ declares }) => declares.lightFrom !== undefined);
}

/** `from 225 deg, 20 deg high, gloss 0.3` */
export function wordsOfLight({ direction, elevation, gloss }: Light): string {
  const [from, high, gleam] = [direction, elevation, gloss].map((value) => trimNumber(value, 2));
  return `from ${from} deg, ${high} deg high, gloss ${gleam}`;
}
