import type { Layout } from '../repeat/layout.ts';
import type { Grade } from './grade.ts';
import type { Edge } from './seam.ts';

/** Where on a tile something is, along one of its edges. */
export interface Place {
  readonly edge: Edge;
  /** From the tile's top or left corner along the edge, px: 0 <= from < to. */
  readonly from: number;
  readonly to: number;
  /** The middle of it on the tile, px. */
  readonly x: number;
  readonly y: number;
  /** The same in mm, where the size of a pixel is known. */
  readonly mm?: { readonly x: number; readonly y: number; readonly length: number };
}

/**
 * What was found of one kind at one edge.
 *
 * `value` and the two it is held against are in colour differences (CIE L*a*b*, a* and b* at half
 * weight), for outlines in shares (0 all go on, 2 all are lost).
 */
export interface Finding {
  readonly value: number;
  /** The largest that the lines inside show. */
  readonly inside: number;
  /** What is still believed of a line like those inside. */
  readonly limit: number;
  /** `value / limit`: above 1 it is a fault, or little above it a doubt. */
  readonly excess: number;
  /** `value / inside`: how many times the inside's largest. */
  readonly times: number;
  readonly place: Place;
  /** How it was gathered: the side of the cells in px, and the statistic, e.g. `step median`. */
  readonly scale: number;
  readonly statistic: string;
}

/** The lines at one edge that are copies of each other though lines inside are not. */
export interface Twins {
  /** Whether the edge repeats the one it meets, or the line next to itself. */
  readonly of: 'edge' | 'neighbour';
  /** Root mean square difference of the two lines, and the least inside. */
  readonly value: number;
  readonly inside: number;
  readonly limit: number;
}

/** What was found at one edge. */
export interface EdgeReport {
  readonly edge: Edge;
  /** The edge that stands against it in the repeat: itself where the copy is mirrored or turned. */
  readonly meets: Edge;
  readonly how: 'moved' | 'mirrored' | 'turned';
  readonly grade: Grade;
  /** False where the grade is `open`. */
  readonly closes: boolean;
  /** False where the picture is too small to show an inside; then nothing is held against it. */
  readonly judged: boolean;
  /** The tone or colour changes from one side to the other. Absent at a mirror line, where it cannot. */
  readonly jump?: Finding;
  /** The slope changes: a crease. */
  readonly kink?: Finding;
  /** Outlines do not go on beyond the edge. */
  readonly contour?: Finding;
  readonly twins?: Twins;
  readonly summary: string;
}

/** Whether a picture closes over a layout. */
export interface SeamReport {
  /** The worst of the edges'. `look`: `worst.place` says where a person should look. */
  readonly grade: Grade;
  /** False where the grade is `open`. */
  readonly closes: boolean;
  readonly layout: Layout;
  /** px of the tile. */
  readonly width: number;
  readonly height: number;
  readonly edges: readonly EdgeReport[];
  /** Where it is worst: of the faults, or of what comes nearest to one; absent where nothing was judged. */
  readonly worst?: Finding;
  /** One or two plain sentences. */
  readonly summary: string;
}

/** The finding of an edge with the largest excess. */
export function worstFinding({ jump, kink, contour }: EdgeReport): Finding | undefined {
  return [jump, kink, contour]
    .filter((finding) => finding !== undefined)
    .reduce<Finding | undefined>(
      (worst, next) => (worst && worst.excess >= next.excess ? worst : next),
      undefined,
    );
}
