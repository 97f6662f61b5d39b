import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** Debian's. */
const CHROMIUM = '/usr/bin/chromium';
/** Quiet, and asking nothing of anybody outside. */
const CALM = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Its tests are skipped where it is missing. */
export const isThere = existsSync(CHROMIUM);

export const openBrowser = (): Promise<Browser> => chromium.launch({ executablePath: CHROMIUM, args: CALM });
