import { runDemo } from './demo.ts';

const folder = 'out/demo';
await runDemo(folder, (line) => console.log(line));
console.log(`
Look at:
  ${folder}/finished/   the finished tiles
  ${folder}/textures/   the textures alone, as tiles
  ${folder}/sheets/     each finished tile in repeat
  ${folder}/seams.txt   the seam report`);
