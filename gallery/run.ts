import { runDemo } from './demo.ts';

const folder = 'out/demo';
await runDemo(folder, (line) => console.log(line));
console.log(`
Look at:
  ${folder}/finished/   the finished tiles
  ${folder}/textures/   the textures alone, as tiles
  ${folder}/closed/     a scan of a painting that was made to close, beside ${folder}/scans/
  ${folder}/sheets/     each finished tile in repeat, and three colourways of one
  ${folder}/parcels/    what goes to the mill: print, plates, strike-off sheet
  ${folder}/seams.txt   the seam report`);
