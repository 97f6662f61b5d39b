import { z } from 'zod';

const numberFrom = (low: number, high: number) => z.number().min(low).max(high);

const dotsSchema = z
  .union([
    z.literal('scattered'),
    z.strictObject({
      shape: z.enum(['lines', 'round']),
      ruling: numberFrom(1, 400).describe('Lines, or rows of dots, per cm.'),
      angle: numberFrom(-360, 360)
        .optional()
        .describe('Degrees from the horizontal, turning anticlockwise; 45 where absent.'),
    }),
  ])
  .describe(
    'scattered where absent: dots of one size, nearer where it is darker. Or lines or round dots in rows.',
  );

const pressSchema = z
  .strictObject({
    gain: z
      .union([
        z.strictObject({
          table: z
            .array(z.tuple([numberFrom(0, 100), numberFrom(0, 100)]))
            .min(1)
            .max(64)
            .describe('Percent asked and percent printed, rising from row to row.'),
        }),
        z.strictObject({
          n: numberFrom(1, 10).describe('The n of Yule and Nielsen; 1.7 where nothing is known.'),
        }),
      ])
      .optional()
      .describe('How much larger tones print than they are asked; it is turned round.'),
    leastDot: numberFrom(0.02, 5)
      .optional()
      .describe('mm of the least dot, line and gap that the mill can print; 0.2 where absent.'),
  })
  .describe('What the mill says of its press.');

/** How a recipe asks for a result of counted inks. */
export const screensSchema = z
  .strictObject({
    card: z.string().min(1).describe('The shade card file, from the folder of this file.'),
    count: z
      .number()
      .int()
      .min(1)
      .max(24)
      .describe('How many screens there are: inks, the ground not counted.'),
    way: z
      .enum(['own', 'bare', 'there'])
      .optional()
      .describe(
        'own: the texture is printed with an ink of the card, or two. bare: it opens the inks to the ground. there (where absent): dots of all inks that are there, whichever come nearest.',
      ),
    inks: z
      .array(z.string().min(1))
      .min(1)
      .max(2)
      .optional()
      .describe('For own: the names of the one or two inks; the one that comes nearest where absent.'),
    dots: dotsSchema.optional(),
    washes: z
      .enum(['hard', 'dots'])
      .optional()
      .describe('Soft edges of the artwork: cut where the inks are equal (hard, where absent), or dots.'),
    press: pressSchema.optional(),
  })
  .describe("The result is made of a shade card's inks and no more.");

/** A result of counted inks, as it is asked for; the card's path is absolute or from the working folder. */
export type ScreensWish = z.infer<typeof screensSchema>;
