import { PLANE_NAMES } from '../../effect/layer.ts';
import type { Answer, Order } from './messages.ts';

/** True for what a thread may say to an order; the rest of the host can then rely on its types. */
export function isAnswer(answer: unknown, order: Order | undefined): answer is Answer {
  if (!isRecord(answer)) return false;
  switch (answer.kind) {
    case 'progress':
      return typeof answer.done === 'number';
    case 'done':
      return order !== undefined && isResult(answer.result, order.kind);
    case 'stray':
      return isFault(answer.fault) && typeof answer.isEnding === 'boolean';
    case 'fault':
      return isFault(answer.fault);
    default:
      return false;
  }
}

function isResult(result: unknown, kind: Order['kind']): boolean {
  switch (kind) {
    case 'describe':
      return isRecord(result) && typeof result.name === 'string' && isRecord(result.parameters);
    case 'prepare':
      return (
        isRecord(result) &&
        arePlanes(result.planes) &&
        arePlanes(result.reads) &&
        Array.isArray(result.reports)
      );
    case 'pass':
      return Array.isArray(result) && result.every(Array.isArray);
    case 'soften':
    case 'gather':
      return result === undefined;
  }
}

/** True for a list of planes that a layer can have, each at most once. */
export function arePlanes(planes: unknown): boolean {
  if (!Array.isArray(planes) || new Set(planes).size !== planes.length) return false;
  return planes.every((name) => (PLANE_NAMES as readonly unknown[]).includes(name));
}

function isFault(fault: unknown): boolean {
  if (!isRecord(fault)) return false;
  return [fault.kind, fault.expected, fault.subject, fault.received].every(
    (word) => typeof word === 'string',
  );
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
