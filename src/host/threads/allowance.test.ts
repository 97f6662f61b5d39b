import { expect, it } from 'vitest';
import { Allowance } from './allowance.ts';

const SHARE = 100;
const FIXED = 10;

it('of one render is what it may touch and take, from where it begins', () => {
  const allowance = new Allowance(SHARE, FIXED);
  allowance.expect(1, 0, 1000);
  expect(allowance.bytes).toBe(1110);
  allowance.expect(1, 500, 1080);
  expect(allowance.bytes).toBe(1690);
});

it('of a render is not lost where another begins beside it', () => {
  const allowance = new Allowance(SHARE, FIXED);
  allowance.expect(1, 500, 1000);
  allowance.expect(2, 0, 1000);
  expect(allowance.bytes).toBe(1710);
});

it('does not grow by what was taken too much before another began', () => {
  const allowance = new Allowance(SHARE, FIXED);
  allowance.expect(1, 500, 1000);
  allowance.expect(2, 20, 1605);
  expect(allowance.bytes).toBe(1730);
});

it('shrinks with a render that leaves, so that a long row of them does not add up', () => {
  const allowance = new Allowance(SHARE, FIXED);
  allowance.expect(0, 0, 1000);
  for (let render = 1; render < 100; render++) {
    allowance.expect(render, 500, 1000);
    allowance.leave(render, 1000);
  }
  expect(allowance.bytes).toBe(1110);
});
