import type { Context, MiddlewareHandler } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import type { ZodType } from 'zod';
import { Fault } from '../../fault.ts';
import { checkShape } from '../../host/files/json-file.ts';
import { told } from './told.ts';

/** Refuses what is longer, before it is read whole. */
export function atMost(bytes: number): MiddlewareHandler {
  return bodyLimit({
    maxSize: bytes,
    onError: (context) =>
      told(context, 413, `That is more than the ${Math.round(bytes / 1e6)} MB that are taken here.`, 'usage'),
  });
}

/** What was sent, once its shape is right. @throws Fault (usage or input). */
export async function bodyOf<T>(context: Context, what: string, schema: ZodType<T>): Promise<T> {
  const text = await context.req.text();
  return checkShape(parse(text, what), 'what the page sent', what, schema);
}

function parse(text: string, what: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new Fault({
      kind: 'usage',
      expected: `${what}, as JSON`,
      subject: 'what the page sent',
      received: (cause as Error).message,
      cause,
    });
  }
}
