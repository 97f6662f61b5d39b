import type { Parameter } from '../parameter.ts';
import type { Bench, Sample } from './bench.ts';
import { type Budget, openBudget } from './budget.ts';
import { channelsOf } from './channels.ts';
import { strangestOf } from './edge-likes.ts';
import { EDGES, type Edge, paintEdge, viewOf, WHOLE } from './edge-view.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';
import { spreadColours, spreadNumbers, words } from './vary.ts';

/**
 * mm. Whatever the size of a cell between 4 and 14 mm, at least three of these hold an odd count of it and three an
 * even one, across and down: what goes by the parity of a cell closes over one kind alone.
 */
const BOXES = [
  [96.3, 113.6],
  [124.9, 91.9],
  [140.7, 113.7],
  [105.5, 101.6],
  [110, 144],
  [133.8, 155],
  [147.5, 121.9],
  [168.1, 99.8],
] as const;
/** A quick proof looks at so many; only where one of them shows something it goes on. */
const QUICK = 3;
const SECONDS = { quick: 0.2, whole: 4 };
/** The same for all options and switches together. */
const WORD_SECONDS = { quick: 0.3, whole: 8 };
const LAYOUTS = ['straight', 'drop:1/2', 'brick:1/2'];
const PIXELS_PER_MM = 2;
/** In textures without order no strip has a like, and the one about an edge is as strange as any. */
const OUTSTANDING = 3;
/** By chance a strip stands out once, hardly so often at one edge. */
const LEAST_SHOWING = 3;

/** An edge about which lies what is nowhere inside. */
export interface Showing {
  readonly sample: Sample;
  readonly edge: Edge;
  readonly channel: string;
  /** How many times as unlike anything inside as what lies inside is. */
  readonly ratio: number;
}

/**
 * The edges that show in enough boxes, whose counts of whatever fills them are odd and even: at the defaults, and then
 * with each other option and switch by itself, which may deal out cells in another way.
 */
export async function tryCounts(bench: Bench): Promise<Counted> {
  const first = await tryCountsOf(bench, { budget: openBudget(bench, SECONDS) });
  let { boxes, showing } = first;
  const budget = openBudget(bench, WORD_SECONDS);
  const sheared = LAYOUTS.slice(1).map((layout): Counts => ({ layout, budget }));
  const others = [...lists(bench.effect), ...words(bench.effect)];
  for (const counts of [...others.map(({ parameters }): Counts => ({ parameters, budget })), ...sheared]) {
    if (showing.length > 0 || budget.isOver()) break;
    const counted = await tryCountsOf(bench, counts);
    boxes += counted.boxes;
    showing = counted.showing;
  }
  return { boxes, showing };
}

/** What the boxes are filled with, and the one layout that all have, where they have not several. */
interface Counts {
  readonly parameters?: Trial['parameters'];
  readonly layout?: string;
  readonly budget: Budget;
}

/** Lists of three and of five, of things far apart: what goes by turns closes over whole threes or fives of cells. */
function lists({ parameters }: Bench['effect']): Pick<Trial, 'parameters'>[] {
  return Object.entries<Parameter>(parameters).flatMap(([name, parameter]) => {
    if (parameter.kind !== 'colours' && parameter.kind !== 'numbers') return [];
    const lengths = LENGTHS.filter((length) => length >= parameter.least && length <= parameter.most);
    return lengths.map((length) => ({
      parameters: {
        [name]: parameter.kind === 'colours' ? spreadColours(length) : spreadNumbers(parameter, length),
      },
    }));
  });
}

const LENGTHS = [3, 5];

interface Counted {
  readonly boxes: number;
  readonly showing: readonly Showing[];
}

async function tryCountsOf(bench: Bench, { parameters = {}, layout, budget }: Counts): Promise<Counted> {
  const found = new Map<string, Showing[]>();
  let boxes = 0;
  for (const trial of trials()) {
    if (isEnough(bench, budget, boxes, found)) break;
    const sample = await unlessRefused(() =>
      bench.prepare({ ...trial, ...(layout && { layout }), parameters }),
    );
    boxes++;
    for (const showing of sample ? showingsOf(bench, sample) : []) {
      const key = `${showing.edge}, ${showing.channel}`;
      found.set(key, [...(found.get(key) ?? []), showing]);
    }
  }
  const enough = [...found.values()].find(({ length }) => length >= LEAST_SHOWING);
  return { boxes, showing: enough ?? [] };
}

/** What has begun to show is followed to its end. */
function isEnough({ quick }: Bench, budget: Budget, boxes: number, found: ReadonlyMap<string, Showing[]>) {
  return found.size === 0 && (budget.isOver() || (quick === true && boxes >= QUICK));
}

function trials(): Trial[] {
  return BOXES.map(([width, height], index) => ({
    ...HOME,
    layout: LAYOUTS[index % LAYOUTS.length],
    width,
    height,
    pixelsPerMm: PIXELS_PER_MM,
    quality: 'sketch',
  }));
}

function showingsOf(bench: Bench, sample: Sample): Showing[] {
  return EDGES.flatMap((edge) => {
    const view = viewOf(sample, edge, WHOLE);
    const at = edge === 'left and right' ? -view.x : -view.y;
    return channelsOf(paintEdge(bench, sample, edge, WHOLE)).flatMap((channel): Showing[] => {
      const { value, inside } = strangestOf(channel, edge, at);
      const ratio = value / inside;
      return value > channel.least && ratio > OUTSTANDING
        ? [{ sample, edge, channel: channel.name, ratio }]
        : [];
    });
  });
}
