import { readdir } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { z } from 'zod';
import { BLEND_MODES } from '../../colour/blend.ts';
import type { ParameterValue } from '../../effect/parameter.ts';
import { valueFaults } from '../../effect/values.ts';
import { Fault } from '../../fault.ts';
import { suggestName } from '../../nearest.ts';
import { reasonOf } from '../../picture/faults.ts';
import type { EffectDescription } from '../../render/description.ts';
import { isObjectWith, readJsonFile } from '../files/json-file.ts';
import { withoutInkNames } from '../ink/named-colours.ts';

/** Items of both sorts in one list are told by the parameter that it is for: it can say which is wrong. */
const listOfItems = z
  .array(z.union([z.number(), z.string()], { error: 'a number or a text' }))
  .describe('For a list of numbers or colours; it keeps its order.');

/** The value of a parameter as it is written in a file. */
export const parameterValue = z.union([z.number(), z.string(), z.boolean(), listOfItems], {
  error: 'a number, a text, true or false, or a list of numbers or texts',
}) as unknown as z.ZodType<ParameterValue>;

export const parameterValues = z.record(z.string(), parameterValue);

/** The shape of a preset file. */
export const presetSchema = z.strictObject({
  $schema: z.string().optional(),
  effect: z.string().describe('The effect it belongs to, by name.'),
  summary: z.string().min(1).describe('One line: what it looks like.'),
  blend: z.enum(BLEND_MODES).optional().describe('How the tint is laid; the effect decides where absent.'),
  opacity: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .describe('How much of the layer is laid, 0 to 1; 1 where absent.'),
  parameters: parameterValues.describe('Values that differ from the defaults of the effect.'),
});

/** Named settings of one effect; the name is that of its file. */
export type Preset = z.infer<typeof presetSchema> & { readonly name: string; readonly file: string };

/**
 * Reads every preset in a folder, by name.
 *
 * @returns Empty where there is no such folder.
 * @throws Fault (input) that names the file for a broken preset, or one of another effect.
 */
export async function readPresets(folder: string, effect: EffectDescription): Promise<Preset[]> {
  const files = (await listJson(folder)).map((file) => join(folder, file));
  return Promise.all(files.map((file) => readPreset(file, effect)));
}

const PRESET = {
  what: 'a preset',
  schema: presetSchema,
  remedy: 'presets/preset.schema.json says what may stand where.',
  mistaken: (value: unknown) =>
    isObjectWith(value, 'steps')
      ? { received: 'a recipe', remedy: 'A preset has settings of one effect; lay a recipe by its path.' }
      : undefined,
};

/**
 * Reads a preset; comments and trailing commas are allowed.
 *
 * @throws Fault (input) that lists all that is wrong with it, or says that it is of another effect.
 */
export async function readPreset(file: string, effect: EffectDescription): Promise<Preset> {
  const { value: preset, findings } = await readJsonFile(file, PRESET);
  if (preset.effect !== effect.name) {
    throw new Fault({
      kind: 'input',
      expected: `a preset of ${effect.name}`,
      subject: file,
      received: `one of "${preset.effect}"`,
      remedy: "Move it to that effect's folder, or mend its effect.",
    });
  }
  for (const { name, fault } of valueFaults(
    effect.name,
    effect.parameters,
    withoutInkNames(effect.parameters, preset.parameters),
    effect.retired,
  )) {
    findings.addFault(['parameters', name], fault);
  }
  findings.throwIfAny();
  return { ...preset, name: basename(file, '.json'), file };
}

/** The preset of that name. @throws Fault (usage) with the nearest name where there is none. */
export function findPreset(effect: EffectDescription, presets: readonly Preset[], name: string): Preset {
  const preset = presets.find((candidate) => candidate.name === name);
  if (preset) return preset;
  const names = presets.map((candidate) => candidate.name);
  throw new Fault({
    kind: 'usage',
    expected: 'the name of a preset',
    subject: effect.name,
    received: `"${name}"`,
    remedy: names.length ? suggestName(name, names) : 'It has none.',
    saying: `No preset of ${effect.name} is called "${name}".`,
  });
}

async function listJson(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((file) => file.endsWith('.json')).sort();
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw new Fault({
      kind: 'input',
      expected: 'a folder of presets',
      subject: folder,
      received: reasonOf(cause),
      remedy: 'Check what lies there and its rights.',
      cause,
    });
  }
}
