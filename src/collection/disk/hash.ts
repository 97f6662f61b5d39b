import { createHash } from 'node:crypto';

/** SHA-256 (FIPS 180-4) in hexadecimal. */
export function sha256(data: string | Uint8Array): string {
  return createHash('sha256').update(data).digest('hex');
}

/** JSON with keys in order and nothing undefined: equal data gives equal text. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, inner) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
  });
}
