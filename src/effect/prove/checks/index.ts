import type { Check } from '../check.ts';
import { abort } from './abort.ts';
import { bands } from './bands.ts';
import { clone } from './clone.ts';
import { cost } from './cost.ts';
import { finite } from './finite.ts';
import { hidden } from './hidden.ts';
import { inside } from './inside.ts';
import { memory } from './memory.ts';
import { model } from './model.ts';
import { parameters } from './parameters.ts';
import { periodic } from './periodic.ts';
import { planes } from './planes.ts';
import { presets } from './presets.ts';
import { resolution } from './resolution.ts';
import { runs } from './runs.ts';
import { seam } from './seam.ts';
import { seed } from './seed.ts';
import { sentences } from './sentences.ts';
import { setting } from './setting.ts';
import { sketch } from './sketch.ts';
import { state } from './state.ts';
import { twice } from './twice.ts';

/** Every check, each after those that it needs. */
export const CHECKS: readonly Check[] = [
  runs,
  setting,
  planes,
  inside,
  finite,
  hidden,
  memory,
  twice,
  state,
  clone,
  model,
  cost,
  bands,
  periodic,
  seam,
  resolution,
  parameters,
  presets,
  sentences,
  seed,
  sketch,
  abort,
];
