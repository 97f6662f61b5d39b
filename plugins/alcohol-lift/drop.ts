import type { Form } from './profile.ts';

/** One drop of spirit, before the paper shapes its opening. Lengths in mm. */
export interface Drop {
  readonly x: number;
  readonly y: number;
  /** Of its opening. */
  readonly radius: number;
  /** When it fell; later drops push what earlier ones left. */
  readonly time: number;
  /** 0 crisp, on nearly dry paint; 1 ghostly, on a flooded wash. */
  readonly softness: number;
  /** Share of the paint that stays where it was, 0..1. */
  readonly stain: number;
  /** How lobed its outline is; 1 ordinary. */
  readonly lobes: number;
  /** How drawn out, as a share, and which way (radians). */
  readonly stretch: number;
  readonly heading: number;
  readonly form: Form;
  /** Keeps a stain of its own where it runs into others. */
  readonly isApart: boolean;
  /** How much of the colours inside is swept along, 0..1; the rest had sunk in. */
  readonly sweep: number;
  /** How far colours run into one another inside: standard deviation, mm. */
  readonly bleed: number;
  /** How far fingers reach from its edge, in radii. */
  readonly fingers: number;
  /** How unevenly the stain inside granulates; 0 smooth. */
  readonly grain: number;
  /** Ink that came with it; 1 ordinary. */
  readonly ink: number;
}
