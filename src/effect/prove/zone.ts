import { swap } from './swap.ts';

/** Further east than any two places of one country are apart, and by no whole hour. */
const ZONE_MS = 345 * 60_000;
const ZONE_NAME = 'Asia/Kathmandu';
const PARTS = ['FullYear', 'Month', 'Date', 'Day', 'Hours', 'Minutes'] as const;
const WORDS = ['toString', 'toDateString', 'toTimeString'] as const;
const LOCAL_WORDS = ['toLocaleString', 'toLocaleDateString', 'toLocaleTimeString'] as const;
/** Text that says which zone it means, or is a date alone: that is Greenwich's. */
const ZONED = /(Z|GMT|UTC|[+-]\d\d:?\d\d)\s*$|^[+-]?\d{4,6}(-\d\d){0,2}$/i;

/** Moves all that a date says of local time into another zone. @returns What puts all back. */
export function moveZone(noted: Noted): (() => void)[] {
  return [...moveParts(noted), ...moveWords(noted), moveFormats(noted), moveConstructor(noted)];
}

type Noted = (name: string) => void;

function moveParts(noted: Noted): (() => void)[] {
  const { prototype } = globalThis.Date;
  const { getTimezoneOffset } = prototype;
  return [
    swap(prototype, 'getTimezoneOffset', function offset(this: Date): number {
      noted('getTimezoneOffset');
      return getTimezoneOffset.call(this) - ZONE_MS / 60_000;
    }),
    ...PARTS.map((part) => {
      const original = prototype[`get${part}`];
      return swap(prototype, `get${part}`, function local(this: Date): number {
        noted(`get${part}`);
        return original.call(eastOf(this));
      });
    }),
  ];
}

function moveWords(noted: Noted): (() => void)[] {
  const { prototype } = globalThis.Date;
  const plain = WORDS.map((name) => {
    const original = prototype[name];
    return swap(prototype, name, function local(this: Date): string {
      noted(name);
      return original.call(eastOf(this));
    });
  });
  const localised = LOCAL_WORDS.map((name) => {
    const original = prototype[name] as (...given: unknown[]) => string;
    return swap(
      prototype,
      name,
      function local(this: Date, locales?: unknown, options?: Intl.DateTimeFormatOptions) {
        if (options?.timeZone) return original.call(this, locales, options);
        noted(name);
        return original.call(this, locales, { ...options, timeZone: ZONE_NAME });
      },
    );
  });
  return [...plain, ...localised];
}

function moveFormats(noted: Noted): () => void {
  const zoned = (locales: unknown, options?: Intl.DateTimeFormatOptions) => {
    if (options?.timeZone) return [locales, options];
    noted('Intl.DateTimeFormat');
    return [locales, { ...options, timeZone: ZONE_NAME }];
  };
  const moved = new Proxy(Intl.DateTimeFormat, {
    construct: (target, [locales, options], self) => Reflect.construct(target, zoned(locales, options), self),
    apply: (target, self, [locales, options]) => Reflect.apply(target, self, zoned(locales, options)),
  });
  return swap(Intl, 'DateTimeFormat', moved);
}

/** A date that is made of local parts, or read from text without a zone. */
function moveConstructor(noted: Noted): () => void {
  const Original = globalThis.Date;
  const west = (given: readonly unknown[]) => {
    const isLocal = given.length > 1 || (typeof given[0] === 'string' && !ZONED.test(given[0]));
    if (!isLocal) return given;
    noted(given.length > 1 ? 'new Date(year, month, ...)' : 'new Date(text)');
    return [Reflect.construct(Original, given).getTime() - ZONE_MS];
  };
  const moved: object = new Proxy(Original, {
    construct: (target, given, self) => Reflect.construct(target, west(given), self),
    get: (target, key, self) =>
      key === 'parse'
        ? (text: string) => new Original(west([text])[0] as string).getTime()
        : Reflect.get(target, key, self),
  });
  return swap(globalThis, 'Date', moved);
}

function eastOf(date: Date): Date {
  return new Date(date.getTime() + ZONE_MS);
}
