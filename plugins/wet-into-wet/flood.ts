import {
  addFractalRow,
  type Box,
  bakeField,
  drySheet,
  type FractalNoise,
  fieldShape,
  fractalAt,
  fractalNoise,
  layPaper,
  openSheet,
  pour,
  type RandomStream,
  REFERENCE_RATES,
  ratesFor,
  type Sheet,
  type SheetRates,
  spotCells,
  spotGround,
  stepSheet,
} from 'tenter';
import { type Noise, roundCell } from './fields.ts';
import type { Fineness } from './fineness.ts';
import { groundOf, layGround } from './ground.ts';
import { layBlooms, layCharges, layFloods, laySpatter, type Mark, type Marks } from './marks.ts';
import { hasSecond, type Values } from './parameters.ts';

/** How long the sheet is watched, in reference steps. */
const LAST = 300;

type AllMarks = Readonly<Record<'floods' | 'blooms' | 'spatter' | 'charges', Marks>>;

export interface Flooded {
  readonly sheet: Sheet;
  readonly counts: Readonly<Record<keyof AllMarks, number>>;
}

/** Lays the wash, pours all that is let into it, and waits until it is dry. */
export function floodPaper(
  values: Values,
  box: Box,
  random: (name: string) => RandomStream,
  { mmPerCell, longer }: Fineness,
  progress: (done: number) => void,
): Flooded {
  const noise: Noise = (name, shape, fractal) => fractalNoise(box.lattice, shape, fractal, random(name));
  const shape = fieldShape(box, mmPerCell);
  const paper = layPaper(
    shape,
    {
      ridges: noise('ridges', roundCell(4.4), { octaves: 2, gain: 0.6 }),
      lobes: noise('lobes', roundCell(17), { octaves: 2, gain: 0.5 }),
      passages: noise('passages', roundCell(45), { octaves: 2, gain: 0.6 }),
      grain: noise('grain', roundCell(2), { octaves: 2, gain: 0.7 }),
    },
    0.25 + 0.75 * values.crinkle,
  );
  const sheet = drySheet(shape, paper, hasSecond(values));
  const wash = groundOf(values, box, noise);
  layGround(sheet, values, wash);
  const marks = layMarks(values, box, random, noise, wash.noises.sheet);
  const edge = noise('edge', roundCell(14), { octaves: 3, gain: 0.6 });
  const ground = spotGround(
    bakeField(box, mmPerCell, (x0, step, y, row, count, offset) =>
      addFractalRow(edge, x0, step, y, 1, row, count, offset),
    ),
  );
  const rates = ratesFor(ratesOf(values), { longer, mmPerCell });
  const running = openSheet(sheet);
  const events = Object.values(marks).flatMap((kind) => kind.marks.map((mark) => eventOf(mark, longer)));
  const steps = Math.ceil(LAST / longer);
  for (let step = 0; step < steps; step++) {
    for (const event of events) {
      if (step < event.first || step >= event.first + event.steps) continue;
      event.spotted ??= spotCells(event.mark.spots, ground);
      pour(event.spotted, event.mark.water / event.steps, sheet.water);
      if (event.mark.paint > 0) {
        const onto = sheet.second?.afloat ?? sheet.afloat.amount;
        const strength = sheet.second ? values.secondAmount / 100 : 1;
        pour(event.spotted, (strength * event.mark.paint) / event.steps, onto);
      }
    }
    stepSheet(running, rates);
    progress((step + 1) / steps);
  }
  const counts = Object.fromEntries(Object.entries(marks).map(([name, { count }]) => [name, count]));
  return { sheet, counts: counts as Flooded['counts'] };
}

interface Event {
  readonly mark: Mark;
  readonly first: number;
  readonly steps: number;
  spotted?: ReturnType<typeof spotCells>;
}

function eventOf(mark: Mark, longer: number): Event {
  return {
    mark,
    first: Math.round(mark.from / longer),
    steps: Math.max(1, Math.round(mark.lasts / longer)),
  };
}

function ratesOf(values: Values): SheetRates {
  const downhill = (values.downhill * Math.PI) / 180;
  const fall = 0.2 * values.tilt;
  return {
    ...REFERENCE_RATES,
    fallX: fall * Math.cos(downhill),
    fallY: fall * Math.sin(downhill),
    drying: REFERENCE_RATES.drying * Math.sqrt(240 / values.drying),
    lifting: (REFERENCE_RATES.lifting * values.backrun) / 0.8,
  };
}

/** Blooms and spatter fall in clusters, with calm passages between. */
function layMarks(
  values: Values,
  box: Box,
  streams: (name: string) => RandomStream,
  noise: Noise,
  wet: FractalNoise,
): AllMarks {
  const throws = noise('throws', roundCell(45), { octaves: 2, gain: 0.6 });
  const calm = noise('calm', roundCell(95), { octaves: 2, gain: 0.6 });
  const share = (field: FractalNoise, mean: number, spread: number) => (x: number, y: number) =>
    Math.max(0, Math.min(1, mean + spread * fractalAt(field, x, y)));
  return {
    floods: layFloods(values, box, streams),
    blooms: layBlooms(values, box, streams, share(calm, 0.3, 0.6)),
    spatter: laySpatter(values, box, streams, share(throws, 0.05, 0.6)),
    charges: layCharges(values, box, streams, share(wet, 0.5, 0.6)),
  };
}
