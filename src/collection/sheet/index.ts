/** Sheets to choose from: contact sheets, and a page that opens from disk. */
export { bookOfFolder } from './book-of-folder.ts';
export { bookOfPlan } from './book-of-plan.ts';
export {
  colourwayScale,
  colourwayWindow,
  type ShownColourway,
  writeColourwaySheet,
} from './colourway-sheet.ts';
export {
  type EmptySwatch,
  makeSheets,
  PAGE_FILE,
  PICTURE_ROOM,
  type SheetSettings,
  type SheetsMade,
} from './make-sheets.ts';
export type { Book, Made, Swatch } from './swatch.ts';
