import { readdir } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { z } from 'zod';
import { BLEND_MODES } from '../../colour/blend.ts';
import { resolveValues } from '../../effect/values.ts';
import { Fault } from '../../fault.ts';
import { suggestName } from '../../nearest.ts';
import { reasonOf } from '../../picture/faults.ts';
import type { EffectDescription } from '../../render/description.ts';
import { readJsonFile } from '../files/json-file.ts';

const parameterValues = z.record(z.string(), z.union([z.number(), z.string(), z.boolean()]));

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
 * @throws Fault (input or usage) that names the file for a broken preset, or one of another effect.
 */
export async function readPresets(folder: string, effect: EffectDescription): Promise<Preset[]> {
  const files = (await listJson(folder)).map((file) => join(folder, file));
  return Promise.all(files.map((file) => readPreset(file, effect)));
}

async function readPreset(file: string, effect: EffectDescription): Promise<Preset> {
  const preset = await readJsonFile(file, 'a preset', presetSchema);
  if (preset.effect !== effect.name) {
    throw new Fault({
      kind: 'input',
      expected: `a preset of ${effect.name}`,
      subject: file,
      received: `one of "${preset.effect}"`,
      remedy: "Move it to that effect's folder, or mend its effect.",
    });
  }
  try {
    resolveValues(effect.name, effect.parameters, preset.parameters);
  } catch (cause) {
    if (!Fault.is(cause)) throw cause;
    throw new Fault({ ...cause.toJSON(), kind: 'input', subject: `${cause.subject} in ${file}`, cause });
  }
  return { ...preset, name: basename(file, '.json'), file };
}

/** The preset of that name. @throws Fault (usage) with the nearest name where there is none. */
export function findPreset(effect: EffectDescription, presets: readonly Preset[], name: string): Preset {
  const preset = presets.find((candidate) => candidate.name === name);
  if (preset) return preset;
  const names = presets.map((candidate) => candidate.name);
  throw new Fault({
    kind: 'usage',
    expected: `a preset of ${effect.name}`,
    subject: 'the preset',
    received: `"${name}"`,
    remedy: names.length ? suggestName(name, names) : 'It has none.',
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
