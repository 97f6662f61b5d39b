export { type CheckOptions, checkSeams } from './check.ts';
export { farSheet } from './far-sheet.ts';
export type { Grade } from './grade.ts';
export type { InspectedPicture } from './inspected-picture.ts';
export { allowOwn } from './own.ts';
export { drawRing, type RepeatSheet, type Ring, repeatSheet, type SheetShape } from './repeat-sheet.ts';
export type { EdgeReport, Finding, Place, SeamReport, Twins } from './report.ts';
export type { Edge } from './seam.ts';
export { checkRepeat, type HotSpot, type RepeatReport } from './shows.ts';
