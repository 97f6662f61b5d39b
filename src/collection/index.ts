/** Collections: many renders from one file, planned, run, resumed and reported. */
export { attend } from './attend.ts';
export { type Estimate, estimate } from './estimate.ts';
export type { Progress, RunEvent } from './events.ts';
export type { Failure } from './failures.ts';
export type { Item } from './item.ts';
export { pixelsOf } from './item.ts';
export { placeInside } from './output.ts';
export { MOST_COMBINATIONS, type Plan, type PlanOptions, planCollection } from './plan.ts';
export { PlanQueue, type QueueCounts } from './queue.ts';
export { type ReadCollection, readCollection } from './read.ts';
export type { QueuePlace } from './redis.ts';
export {
  gatherReport,
  REPORT_FILE,
  type Report,
  type ReportTimes,
  TIMES_FILE,
  writeReport,
} from './report.ts';
export { runItems } from './run.ts';
export type { RunResult, RunSettings, Saved } from './run-settings.ts';
export { type CollectionFile, collectionSchema } from './schema.ts';
export { publishedSchemas } from './schemas.ts';
export { chosenOf, wordsOfList } from './select.ts';
export { itemsOfShard, parseShard, type Shard } from './shard.ts';
export type { Sidecar, Verdict } from './sidecar.ts';
export { lookForItems, type Standings } from './standing.ts';
export { type StartWishes, startCollection } from './start.ts';
export { type WorkResult, type WorkSettings, workOnQueue } from './work-queue.ts';
