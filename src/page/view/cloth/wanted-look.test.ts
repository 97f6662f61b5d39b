import { describe, expect, it } from 'vitest';
import { needsNewLook, wantedLook } from './wanted-look.ts';

const ROOM = { width: 1280, height: 800 };
const LARGE = { width: 640, height: 640, layout: 'drop:1/2' };
const whole = { left: 0, top: 0, scale: 1 };
const near = { left: 100, top: 50, scale: 10 };

describe('the look that is wanted', () => {
  it('is a whole period where the window shows one', () => {
    expect(wantedLook(whole, ROOM, LARGE, 1)).toEqual({ density: 1 });
  });
  it('is a whole period that is small, however near', () => {
    const small = { width: 20, height: 20, layout: 'straight' };
    expect(wantedLook(near, ROOM, small, 2)).toEqual({ density: 20 });
    expect(wantedLook({ ...near, scale: 60 }, ROOM, small, 1)).toEqual({ density: 60 });
    expect(wantedLook({ ...near, scale: 62 }, ROOM, small, 1).part).toBeDefined();
  });
  it('is else what is in view, with an eighth of the window around it', () => {
    expect(wantedLook(near, ROOM, LARGE, 1)).toEqual({
      density: 10,
      part: { left: 84, top: 40, width: 160, height: 100 },
    });
  });
  it('counts a reflected tile as it is unfolded', () => {
    const tile = { width: 100, height: 100, layout: 'mirror-xy' };
    expect(wantedLook({ ...near, scale: 6 }, ROOM, tile, 1).part).toBeUndefined();
    expect(wantedLook({ ...near, scale: 7 }, ROOM, tile, 1).part).toBeDefined();
  });
  it('is a part where a period would have to be laid out too often to be drawn finely', () => {
    const tile = { width: 100, height: 100, layout: 'drop:3/64' };
    expect(wantedLook({ ...near, scale: 5 }, ROOM, tile, 1).part).toBeUndefined();
    expect(wantedLook({ ...near, scale: 5.1 }, ROOM, tile, 1).part).toBeDefined();
  });
  it('asks for no more device pixels than two to a CSS pixel, and no more than can be made', () => {
    expect(wantedLook(near, ROOM, LARGE, 3).density).toBe(20);
    const wall = wantedLook(near, { width: 7680, height: 4320 }, LARGE, 2);
    expect(wall.part!.width * wall.part!.height * wall.density ** 2).toBeCloseTo(8e6, 0);
  });
});

describe('a new look', () => {
  const wanted = wantedLook(near, ROOM, LARGE, 1);
  const after = (x: number, y: number, scale = 10) =>
    wantedLook({ left: near.left + x, top: near.top + y, scale }, ROOM, LARGE, 1);
  const needs = (x: number, y: number, scale?: number) => needsNewLook([wanted], after(x, y, scale), LARGE);

  it('is needed where there is none, and not for what is there', () => {
    expect(needsNewLook([], wanted, LARGE)).toBe(true);
    expect(needs(0, 0)).toBe(false);
  });
  it('is not needed for a small pan, and is beyond the margin', () => {
    expect(needs(16, -10)).toBe(false);
    expect(needs(16.1, 0)).toBe(true);
    expect(needs(0, -10.1)).toBe(true);
  });
  it('is not needed on any copy of the part', () => {
    expect(needs(640, 320)).toBe(false);
    expect(needs(-640 * 3, 320 + 640 * 5 + 9)).toBe(false);
    expect(needs(640, 0)).toBe(true);
  });
  it('is needed nearer by, and not a little nearer or further off', () => {
    expect(needs(7, 5, 11)).toBe(false);
    expect(needs(7, 5, 11.2)).toBe(true);
    expect(needs(-6, -4, 9.2)).toBe(false);
    expect(needs(-40, -20, 5)).toBe(true);
  });
  it('is not needed where a whole period is fine enough', () => {
    expect(needsNewLook([{ density: 12 }, wanted], after(400, 0), LARGE)).toBe(false);
    expect(needsNewLook([{ density: 8 }, wanted], after(400, 0), LARGE)).toBe(true);
    expect(needsNewLook([wanted], { density: 1 }, LARGE)).toBe(true);
  });
});
