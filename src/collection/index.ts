/** Collections: many renders from one file, planned, run, resumed and reported. */
export type { Failure } from './disk/failures.ts';
export { canonicalJson, sha256 } from './disk/hash.ts';
export { placeInside, REPORT_FILE, TIMES_FILE } from './disk/output.ts';
export {
  gatherReport,
  type Report,
  type ReportTimes,
  writeReport,
} from './disk/report.ts';
export type { Sidecar, Verdict } from './disk/sidecar.ts';
export { lookForItems, type Standings } from './disk/standing.ts';
export { gradeOf, type Unclosed } from './disk/unclosed.ts';
export { type ReadCollection, readCollection } from './file/read.ts';
export { type CollectionFile, collectionSchema, publishedSchemas } from './file/schema.ts';
export { type StartWishes, startCollection } from './file/start.ts';
export { type Estimate, estimate } from './making/estimate.ts';
export type { Progress, RunEvent } from './making/events.ts';
export { runItems } from './making/run.ts';
export type { RunResult, RunSettings, Saved } from './making/run-settings.ts';
export { designInputs, type Inputs } from './plan/identity.ts';
export { type Item, pixelsOf } from './plan/item.ts';
export { MOST_COMBINATIONS, type Plan, type PlanOptions, planCollection } from './plan/plan.ts';
export { chosenOf, wordsOfList } from './plan/select.ts';
export { itemsOfShard, parseShard, type Shard } from './plan/shard.ts';
export { attend } from './queue/attend.ts';
export { PlanQueue, type QueueCounts } from './queue/queue.ts';
export type { QueuePlace } from './queue/redis.ts';
export { type WorkResult, type WorkSettings, workOnQueue } from './queue/work-queue.ts';
