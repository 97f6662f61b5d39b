/** How a wash is laid, in painters' words. All are shares of what is usual unless a unit is told. */
export interface WashValues {
  /** Width of the brush, mm. */
  readonly brush: number;
  /** How the strokes run, degrees from the x axis, clockwise on the page. */
  readonly direction: number;
  /** How long a stroke is, mm. */
  readonly stroke: number;
  /** Share of the edges that met paint which had begun to dry, 0..1. */
  readonly drying: number;
  /** How dark paint gathers along edges that dried, 0..2 times what is usual. */
  readonly edges: number;
  /** How much paint gravity draws to the lower edge of a stroke, 0..2 times what is usual. */
  readonly bead: number;
  /** How far the wash wanders between light and dark, 0..2 times what is usual. */
  readonly unevenness: number;
  /** How far the brush runs out from the beginning of a stroke to its end, 0..1. */
  readonly grading: number;
  /** Back-runs per square decimetre. */
  readonly backRuns: number;
  /** How often the brush skips and leaves flecks bare, 0..1. */
  readonly skips: number;
  /** How strongly paint settles in the hollows of the paper, 0..2 times what is usual. */
  readonly granulation: number;
  /** From hollow to hollow of the paper, mm. */
  readonly tooth: number;
}
