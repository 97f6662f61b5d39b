import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { passOutputOn } from './crew-output.ts';

it('passes on so much of what is printed, and says once that more was left out', async () => {
  const streams = [new PassThrough(), new PassThrough()];
  let heard = '';
  passOutputOn(streams, { write: (bytes: Uint8Array | string) => !!(heard += String(bytes)) }, 1024);
  for (let k = 0; k < 500; k++) for (const stream of streams) stream.write('0123456789');
  for (const stream of streams) stream.end();
  await Promise.all(streams.map((stream) => new Promise((resolve) => stream.once('end', resolve))));
  expect(heard.replace(/[^0-9]/g, '').slice(0, 1024)).toHaveLength(1024);
  expect(heard.match(/A plugin printed more than 1 KB; the rest is left out\./g)).toHaveLength(1);
  expect(heard.length).toBeLessThan(1100);
});
