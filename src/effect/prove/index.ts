/**
 * The conformance kit, "tenter/prove": tries whether an effect keeps its contract. Runs in Node and in a
 * browser alike. It is no part of the public entry, so that it comes into nobody's plugin.
 */
export type { BenchOptions, Preset as ProofPreset } from './bench.ts';
export { CHECKS } from './checks/index.ts';
export { importedCopies } from './copies.ts';
export type { CopyAnswer, CopyOrder, RunCopy } from './copy.ts';
export { describeFailures, expectProven } from './expect.ts';
export { type ProveOptions, proveEffect } from './prove.ts';
export type {
  CheckName,
  CheckResult,
  Failure,
  Figures,
  ProofPicture,
  ProofReport,
  Verdict,
} from './report.ts';
export type { Drawn, Surrounding } from './surrounding.ts';
export { describeTrial, type Trial } from './trial.ts';
