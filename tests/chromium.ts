/** Debian's; its tests are skipped where it is missing. */
export const CHROMIUM = '/usr/bin/chromium';
/** Quiet, and asking nothing of anybody outside. */
export const CALM = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
