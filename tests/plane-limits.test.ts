import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PLANE_LIMITS } from '../src/effect/plane-limits.ts';

const page = readFileSync(new URL('../plugins/README.md', import.meta.url), 'utf8').replace(/\s+/g, ' ');

it('are those of the page for authors', () => {
  const { load, parting, shade, tint, shift, bleed, relief } = PLANE_LIMITS;
  expect(load).toEqual(shade);
  expect([-parting.least, -shift.least, -relief.least]).toEqual([parting.most, shift.most, relief.most]);
  expect(page).toContain(
    `\`load\` and \`shade\` ${load.least} to ${load.most}, \`parting\` ${parting.most} either way, \`tint\` ${tint.least} to ${tint.most}, \`shift\` ${shift.most} mm either way, \`bleed\` ${bleed.least} to ${bleed.most} mm, \`relief\` ${relief.most} mm up or down`,
  );
  expect(page).toContain(`${bleed.most} mm is the most`);
});
