export { type CheckOptions, checkSeams } from './check.ts';
export { drawRing, type RepeatSheet, type Ring, repeatSheet, type SheetShape } from './repeat-sheet.ts';
export type { EdgeReport, Finding, Place, SeamReport, Twins } from './report.ts';
export { checkRepeat, type HotSpot, type RepeatReport } from './shows.ts';
