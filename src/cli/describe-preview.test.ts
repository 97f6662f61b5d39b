import { expect, it } from 'vitest';
import type { Preview } from '../host/author/preview.ts';
import { describePreview } from './describe-preview.ts';

function previewWith(strange: number): Preview {
  const range = { plane: 'shade', channel: '', low: 0.5, high: 1, sum: 2.25, count: 3, strange };
  const report = {
    out: 'preview.png',
    reports: [[{ name: 'stripe', value: 2.8600000000000003, unit: 'mm', asked: 3.0000000000000004 }]],
    ranges: [[range]],
    timings: { prepare: 1, paint: 1 },
    seams: { summary: 'Closes over straight.' },
    warnings: [],
    quality: 'sketch',
  };
  const step = { effect: 'wash', version: '1.0.0' };
  return { step, report, took: 9, loading: 1, files: [], pixels: new Uint8Array(4) } as unknown as Preview;
}

it('never says that a picture of numbers that are none closes', () => {
  expect(describePreview(previewWith(0), undefined)).toContain('seams: Closes over straight.');
  const spoilt = describePreview(previewWith(7), undefined);
  expect(spoilt).toContain('7 VALUES ARE NO FINITE NUMBERS');
  expect(spoilt).not.toContain('Closes');
});

it('trims its figures', () => {
  expect(describePreview(previewWith(0), undefined)).toContain('stripe 2.86');
});
