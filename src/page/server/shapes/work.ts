import { z } from 'zod';
import { recipeSchema } from '../../../host/plugins/recipe.ts';
import type { KeptWork } from '../../words/begin.ts';
import { type Laying, OPENED, RESIST, type Resist, type Work } from '../../words/work.ts';

/** A name that the page or the server gave: never a path. */
export const idText = z.string().regex(/^[\w-]{1,64}$/, 'a name of letters, figures, - and _');
export const nameText = z.string().min(1).max(200);

/** mm */
const side = z.number().min(1).max(10_000);
export const sizeSchema = z.strictObject({ width: side, height: side });
export const layoutText = z.string().max(40);
export const groundText = z.string().regex(/^#[0-9a-f]{6}$/i, 'a colour written #rrggbb');

const stepShape = recipeSchema.shape.steps.element;

/** A picture on the page is one that was opened or painted there; no other file can be named. */
const isOwnPicture = (picture: string | undefined) =>
  picture === undefined || picture.startsWith(RESIST) || /^opened:[\w-]{1,64}$/.test(picture);

const stepSchema = stepShape.extend({
  id: idText,
  held: z.boolean().optional(),
  effect: nameText,
  preset: nameText.optional(),
  seed: nameText.optional(),
  mask: stepShape.shape.mask.refine((mask) => isOwnPicture(mask?.picture), {
    message: `a picture written ${RESIST}NAME or ${OPENED}ID`,
  }),
});

export const layingSchema: z.ZodType<Laying> = z.strictObject({
  steps: z.array(stepSchema).max(32),
  seed: nameText,
  follow: recipeSchema.shape.follow,
  light: recipeSchema.shape.light,
});

/** Numbers of a stroke: some 30 000 points, minutes of painting without lifting the hand. */
const MOST_NUMBERS = 90_000;
const strokeSchema = z.strictObject({
  width: z.number().min(0.01).max(10_000),
  softness: z.number().min(0).max(1),
  erases: z.boolean().optional(),
  points: z
    .array(z.number().min(-1e7).max(1e7))
    .min(3)
    .max(MOST_NUMBERS)
    .refine(({ length }) => length % 3 === 0, { message: 'three numbers a point' }),
});
const resistSchema: z.ZodType<Resist> = z.strictObject({ strokes: z.array(strokeSchema).max(10_000) });
export const resistsSchema = z.record(nameText, resistSchema);

export const workSchema: z.ZodType<Work> = z.strictObject({
  version: z.literal(1),
  tile: idText.optional(),
  ground: groundText,
  layout: layoutText,
  size: sizeSchema,
  laying: layingSchema,
  resists: resistsSchema,
  trials: z.array(z.strictObject({ id: idText, name: nameText, laying: layingSchema })).max(1000),
});

const MOST_PAGES = 2000;
export const keptWorkSchema: z.ZodType<KeptWork> = z.strictObject({
  id: idText,
  revision: z.int().min(1),
  work: workSchema,
  past: z.array(workSchema).max(MOST_PAGES),
  future: z.array(workSchema).max(MOST_PAGES),
});
