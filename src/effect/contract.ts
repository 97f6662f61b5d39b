import { BLEND_MODES } from '../colour/blend.ts';
import { type AnyEffect, API_VERSION, OLDEST_API_VERSION } from './effect.ts';
import { PLANE_NAMES, READABLE } from './layer.ts';
import { describe, misshapen } from './misshapen.ts';
import type { ParameterSet } from './parameter.ts';
import { checkParameter } from './parameter-contract.ts';
import { type Spoken, sentenceFaults } from './sentence-contract.ts';
import { resolveValues } from './values.ts';

/**
 * Checks that what a plugin exports is an effect of this contract. What it carries besides is let be: it
 * may be written for a host that knows more.
 *
 * @param candidate The default export of the plugin's module.
 * @param place     Where it came from, for messages.
 * @throws Fault (effect) that names the first thing that is missing or wrong.
 */
export function checkEffect(candidate: unknown, place: string): AnyEffect {
  if (typeof candidate !== 'object' || candidate === null) {
    throw misshapen(place, 'a default export made by defineEffect', describe(candidate));
  }
  const effect = candidate as Record<string, unknown>;
  checkVersion(effect.apiVersion, place);
  const word = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
  require(typeof effect.name === 'string' &&
    word.test(effect.name), 'a name of lower case words with hyphens', effect.name);
  require(typeof effect.version === 'string' &&
    /^\d+\.\d+\.\d+/.test(effect.version), 'a version such as 1.0.0', effect.version);
  require(typeof effect.summary === 'string' &&
    effect.summary.length > 0, 'a summary of one line', effect.summary);
  require(Array.isArray(effect.planes) &&
    effect.planes.length > 0, `planes, some of ${PLANE_NAMES.join(', ')}`, effect.planes);
  for (const plane of effect.planes as unknown[]) {
    require(PLANE_NAMES.includes(plane as never), `planes, some of ${PLANE_NAMES.join(', ')}`, plane);
  }
  checkReads(effect.reads, place);
  checkNews(effect, place);
  require(effect.blend === undefined ||
    BLEND_MODES.includes(
      effect.blend as never,
    ), `a blend mode, one of ${BLEND_MODES.join(', ')}`, effect.blend);
  require(typeof effect.prepare === 'function', 'a function prepare(setting)', effect.prepare);
  require(typeof effect.paint === 'function', 'a function paint(model, band, layer)', effect.paint);
  require(effect.planesFor === undefined ||
    typeof effect.planesFor === 'function', 'a function planesFor(parameters)', effect.planesFor);
  require(typeof effect.parameters === 'object' &&
    effect.parameters !== null, 'parameters', effect.parameters);
  require(effect.retired === undefined ||
    isRetired(effect.retired), 'retired, a sentence for each name that is no longer taken', effect.retired);
  for (const [name, parameter] of Object.entries(effect.parameters as object))
    checkParameter(name, parameter, place, effect.apiVersion as number);
  checkAlike(Object.keys(effect.parameters as object), place);
  require(effect.lightFrom === undefined ||
    isDirection(
      effect.parameters as ParameterSet,
      effect.lightFrom,
    ), 'lightFrom, the name of a parameter that is a number in deg from 0 to 360', effect.lightFrom);
  resolveValues(String(effect.name), effect.parameters as never, {});
  for (const fault of sentenceFaults(effect as unknown as Spoken, place)) throw fault;
  return candidate as AnyEffect;

  function require(holds: boolean, expected: string, received: unknown): asserts holds {
    if (!holds) throw misshapen(place, expected, describe(received));
  }
}

function checkVersion(version: unknown, place: string): void {
  if (Number.isInteger(version) && isSpoken(version as number)) return;
  const spoken = `apiVersion ${OLDEST_API_VERSION} to ${API_VERSION}, those this host speaks`;
  const remedy =
    typeof version === 'number' && version > API_VERSION
      ? 'Update tenter, or install an older version of the plugin.'
      : typeof version === 'number'
        ? 'Install a newer version of the plugin, or ask its author for one.'
        : `Write apiVersion: ${API_VERSION} into the effect.`;
  throw misshapen(place, spoken, describe(version), remedy);
}

function isDirection(parameters: ParameterSet, name: unknown): boolean {
  if (typeof name !== 'string' || !Object.hasOwn(parameters, name)) return false;
  const parameter = parameters[name];
  return (
    parameter.kind === 'number' && parameter.unit === 'deg' && parameter.min === 0 && parameter.max === 360
  );
}

function isRetired(retired: unknown): boolean {
  if (typeof retired !== 'object' || retired === null) return false;
  return Object.values(retired).every((words) => typeof words === 'string' && words !== '');
}

/** What an effect reads: the artwork, and of the steps before it. */
function checkReads(reads: unknown, place: string): void {
  if (reads === undefined) return;
  const expected = `reads, some of ${READABLE.join(', ')}, each once`;
  if (!Array.isArray(reads) || reads.length === 0 || new Set(reads).size !== reads.length)
    throw misshapen(place, expected, describe(reads));
  const strange = reads.find((plane) => !READABLE.includes(plane));
  if (strange === undefined) return;
  const remedy = MOVING.includes(strange)
    ? 'What moves paint says where it came from, and cannot be read once it is laid.'
    : undefined;
  throw misshapen(place, expected, describe(strange), remedy);
}

const MOVING: readonly unknown[] = ['shift', 'bleed'];

/** What is younger than the version that the effect was written for. */
function checkNews({ apiVersion, planes, reads }: Record<string, unknown>, place: string): void {
  if ((apiVersion as number) < 3 && (planes as unknown[]).includes('parting'))
    throw misshapen(
      place,
      'apiVersion 3 for the plane parting',
      describe(apiVersion),
      'Write apiVersion: 3 into the effect.',
    );
  if ((apiVersion as number) >= 2) return;
  const remedy = 'Write apiVersion: 2 into the effect.';
  if ((planes as unknown[]).includes('relief'))
    throw misshapen(place, 'apiVersion 2 for the plane relief', describe(apiVersion), remedy);
  if (reads !== undefined) throw misshapen(place, 'apiVersion 2 for reads', describe(apiVersion), remedy);
}

function isSpoken(version: number): boolean {
  return version >= OLDEST_API_VERSION && version <= API_VERSION;
}

/** Two names that differ in capitals alone are one to whoever types them. */
function checkAlike(names: readonly string[], place: string): void {
  for (const [index, name] of names.entries()) {
    const before = names.slice(0, index).find((other) => other.toLowerCase() === name.toLowerCase());
    if (before === undefined) continue;
    const remedy = 'Rename one of the two.';
    throw misshapen(place, 'parameters told apart by more than capitals', `${before} and ${name}`, remedy);
  }
}
