import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import { Fault, type FaultKind } from '../../fault.ts';
import type { Told } from '../words/look.ts';

const STATUS: Readonly<Record<FaultKind, ContentfulStatusCode>> = {
  usage: 400,
  input: 400,
  output: 409,
  effect: 422,
  cancelled: 409,
};

/** An answer that says what was wrong. */
export function told(
  context: Context,
  status: ContentfulStatusCode,
  message: string,
  kind: string,
): Response {
  return context.json({ message, kind } satisfies Told, status);
}

/** The answer to whatever was thrown; what is no Fault is a fault of tenter itself, and is said to be one. */
export function tellError(error: unknown, context: Context): Response {
  if (!Fault.is(error)) {
    const { message } = error as Error;
    return told(context, 500, `A fault of tenter itself; please report it: ${message}`, 'bug');
  }
  const step = error.details?.step;
  const said: Told = {
    message: error.message,
    kind: error.kind,
    ...(typeof step === 'string' ? { step } : {}),
  };
  return context.json(said, STATUS[error.kind] ?? 500);
}
