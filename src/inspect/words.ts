import { formatLayout } from '../repeat/layout.ts';
import { trimNumber } from '../repeat/length.ts';
import { type EdgeReport, type Finding, type SeamReport, worstFinding } from './report.ts';

/** What one edge does, as a plain sentence. */
export function summariseEdge(report: Omit<EdgeReport, 'summary'>): string {
  const meeting = meetingOf(report);
  if (!report.judged) return `${capital(meeting)} is not judged: the picture is too small to show an inside.`;
  if (report.grade === 'closes') return `${capital(meeting)} closes.`;
  if (report.twins) return twinWords(report);
  const worst = worstFinding({ ...report, summary: '' })!;
  const verdict = report.grade === 'open' ? 'is open' : 'may be open';
  return `${capital(meeting)} ${verdict}: ${findingWords(report, worst)}.`;
}

/** The verdict in a few sentences. */
export function summariseReport(report: Omit<SeamReport, 'summary'>): string {
  const layout = formatLayout(report.layout);
  const told = report.edges.filter(({ grade }) => grade !== 'closes').map(({ summary }) => summary);
  if (report.grade === 'open') return `Open over ${layout}. ${told.join(' ')}`;
  if (report.grade === 'look')
    return `Look at it over ${layout}. ${told.join(' ')} It may as well be what the picture itself draws there.`;
  const judged = report.edges.filter(({ judged }) => judged);
  if (judged.length === 0) return `Closes over ${layout}, as far as so small a picture can tell.`;
  const closes = `Closes over ${layout}: no edge shows more than the inside does.`;
  return judged.some(({ how }) => how === 'mirrored') ? `${closes} ${BLIND_AT_MIRRORS}` : closes;
}

/** What is to be said wherever a mirror line passes; see the rates of `checkSeams`. */
export const BLIND_AT_MIRRORS =
  'A tile cut short in front of its mirror line shows there only as a crease, which this check misses half the time or more: look along it.';

function meetingOf({ edge, meets, how }: Pick<EdgeReport, 'edge' | 'meets' | 'how'>): string {
  if (how === 'mirrored') return `the ${edge} edge in its mirror`;
  if (how === 'turned') return `the ${edge} edge against itself turned`;
  return `the ${edge} edge against the ${meets}`;
}

function findingWords(report: Omit<EdgeReport, 'summary'>, finding: Finding): string {
  const where = whereWords(finding);
  const beside = `where the inside shows ${figureWords(finding.inside)} at most`;
  if (finding === report.contour) {
    return `outlines that meet it do not go on beyond, ${figureWords(finding.value)} from 0 (all go on) to 2 (all are lost) ${where}, ${beside}`;
  }
  const what = finding === report.kink ? 'the tone turns sharply (a crease)' : 'tone or colour jumps';
  return `${what} by a colour difference of ${figureWords(finding.value)} ${where}, ${beside}`;
}

function whereWords({ place, scale }: Finding): string {
  const upright = place.edge === 'left' || place.edge === 'right';
  const axis = upright ? 'y' : 'x';
  const at = upright ? place.y : place.x;
  const length = place.to - place.from;
  const mm = place.mm ? ` (${trimNumber(upright ? place.mm.y : place.mm.x, 1)} mm)` : '';
  if (length <= 2 * scale) return `at ${axis} = ${Math.round(at)} px${mm}`;
  return `over ${length} px about ${axis} = ${Math.round(at)} px${mm}`;
}

function twinWords({ edge, meets, twins }: Omit<EdgeReport, 'summary'>): string {
  const line = edge === 'right' || edge === 'left' ? 'column' : 'row';
  if (twins?.of === 'edge') {
    return `The ${line} at the ${edge} edge repeats the one at the ${meets}: the tile is one ${line} too many, cut one off.`;
  }
  return `Two ${line}s at the ${edge} or ${meets} edge are copies of each other: one of them is one too many.`;
}

/** Two figures that matter: 0.43, 2.6, 23. */
function figureWords(value: number): string {
  return trimNumber(value, value < 1 ? 2 : value < 10 ? 1 : 0);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
