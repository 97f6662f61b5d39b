export { type Origins, originsOf } from './origins.ts';
export { layPaper, type Paper, type PaperNoises } from './paper.ts';
export { pour, type Spot, type SpotGround, type Spotted, spotCells, spotGround } from './pour.ts';
export { REFERENCE_CELL, REFERENCE_RATES, REFERENCE_STEPS, ratesFor, type SheetRates } from './rates.ts';
export { drySheet, type Paint, type Sheet } from './sheet.ts';
export { openSheet, type RunningSheet, stepSheet } from './step.ts';
