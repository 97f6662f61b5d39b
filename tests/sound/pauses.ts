import { setTimeout as pause } from 'node:timers/promises';
import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from '../broken/ripple.ts';

const months = new Intl.DateTimeFormat('en', { month: 'long', timeZone: 'UTC' });

/** Waits for others now and then, names its zone and its locale, and leaves nothing behind. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    const alarm = setTimeout(() => {}, 60_000);
    await new Promise((done) => setTimeout(done, 1));
    await new Promise<void>((done) => setImmediate(done));
    await pause(1);
    clearTimeout(alarm);
    return { ...prepareRipple(setting), month: months.format(0) };
  },
});
