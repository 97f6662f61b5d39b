/** The live page: its server, and what it says. */
export { openLivePage, type PageWishes } from './server/open-page.ts';
export type { LivePage } from './server/start.ts';
