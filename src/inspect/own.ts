import { formatLayout } from '../repeat/layout.ts';
import { worstGrade } from './grade.ts';
import { type EdgeReport, type Finding, type SeamReport, worstFinding } from './report.ts';
import { summariseEdge, summariseReport } from './words.ts';

/**
 * Holds what was found in a picture against what the same check finds in one that is known to close:
 * an unfolded tile, whose mirror lines meet themselves whatever the design draws along them. A hard
 * edge or a thin line there is the design's own, and no fault of the texture laid over it. So a figure
 * that the design fails at an edge is not taken there; the others still find a texture that is open.
 *
 * @param report Of the picture with its texture.
 * @param own    Of the picture before, of the same size and layout.
 */
export function allowOwn(report: SeamReport, own: SeamReport): SeamReport {
  const edges = report.edges.map((edge, index) => allowOwnEdge(edge, own.edges[index]));
  const grade = worstGrade(edges.map((edge) => edge.grade));
  const findings = edges.map(worstFinding).filter((finding) => finding !== undefined);
  const allowed = {
    ...report,
    grade,
    closes: grade !== 'open',
    edges,
    worst: findings.sort((a, b) => b.excess - a.excess)[0],
  };
  const summary =
    allowed.grade === 'closes'
      ? `Closes over ${formatLayout(report.layout)}: no edge shows more than the design itself draws there.`
      : summariseReport(allowed);
  return { ...allowed, summary };
}

function allowOwnEdge(edge: EdgeReport, own: EdgeReport): EdgeReport {
  if (edge.grade === 'closes') return edge;
  const allowed = {
    ...edge,
    jump: allowFinding(edge.jump, own.jump),
    kink: allowFinding(edge.kink, own.kink),
    contour: allowFinding(edge.contour, own.contour),
    twins: own.twins ? undefined : edge.twins,
  };
  const findings = [allowed.jump, allowed.kink, allowed.contour].filter((finding) => finding !== undefined);
  if (allowed.twins === undefined && findings.every(({ excess }) => excess <= 1)) {
    allowed.grade = 'closes';
    allowed.closes = true;
  }
  return { ...allowed, summary: summariseEdge(allowed) };
}

/** From here on a design is near its limit by itself, and any change of its contrast may carry it over. */
const NEAR = 0.5;

/**
 * A figure that the design fails, or nearly, by itself tells nothing of the texture. It cannot be
 * subtracted: each picture is measured by what its own inside leads one to expect.
 */
function allowFinding(found: Finding | undefined, own: Finding | undefined): Finding | undefined {
  return own && own.excess > NEAR ? undefined : found;
}
