import { z } from 'zod';
import type { CloseOrder } from '../../words/close.ts';
import type { LookOrder } from '../../words/look.ts';
import type { CommandOrder, SaveOrder } from '../../words/save.ts';
import {
  groundText,
  idText,
  layingSchema,
  layoutText,
  nameText,
  resistsSchema,
  sizeSchema,
  workSchema,
} from './work.ts';

/** Pixels per mm: from 1 to 10,000 dpi, as commands take them. */
export const densitySchema = z
  .number()
  .min(1 / 25.4)
  .max(10_000 / 25.4);

const far = z.number().min(-1e7).max(1e7);
const partSchema = z.strictObject({
  left: far,
  top: far,
  width: z.number().positive().max(1e5),
  height: z.number().positive().max(1e5),
});

export const lookSchema: z.ZodType<LookOrder> = z.strictObject({
  tile: idText.optional(),
  ground: groundText,
  layout: layoutText,
  size: sizeSchema,
  laying: layingSchema,
  resists: resistsSchema,
  density: densitySchema,
  part: partSchema.optional(),
  quality: z.enum(['sketch', 'finished']),
});

export const checkSchema = z.strictObject({ tile: idText, layout: layoutText, size: sizeSchema.optional() });

export const closeSchema: z.ZodType<CloseOrder> = z.strictObject({
  tile: idText,
  layout: layoutText,
  size: sizeSchema,
});

export const saveSchema: z.ZodType<SaveOrder> = z.strictObject({
  what: z.enum(['recipe', 'tile', 'texture', 'collection']),
  name: nameText,
  work: workSchema,
  trials: z.array(idText).max(1000).optional(),
  density: densitySchema.optional(),
  fit: z.boolean().optional(),
  overwrite: z.boolean().optional(),
});

export const commandSchema: z.ZodType<CommandOrder> = z.strictObject({
  work: workSchema,
  laying: layingSchema,
  density: densitySchema.optional(),
});
