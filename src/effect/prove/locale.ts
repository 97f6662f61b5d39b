import { swap, swapGetter } from './swap.ts';

/** One that writes numbers and makes capitals otherwise than most. */
const LOCALE = 'tr-TR';
/** One that sorts plain letters otherwise: z comes before t. */
const SORTING_LOCALE = 'et-EE';
const SORTING = ['localeCompare', 'Intl.Collator'];
const FORMATS = [
  'Collator',
  'DateTimeFormat',
  'DisplayNames',
  'ListFormat',
  'NumberFormat',
  'PluralRules',
  'RelativeTimeFormat',
  'Segmenter',
] as const;
/** Functions that take a locale as the argument of that number, and the machine's where there is none. */
const LOCALISED: readonly (readonly [owner: string, key: string, at: number])[] = [
  ['String', 'localeCompare', 1],
  ['String', 'toLocaleLowerCase', 0],
  ['String', 'toLocaleUpperCase', 0],
  ['Number', 'toLocaleString', 0],
  ['BigInt', 'toLocaleString', 0],
  ['Date', 'toLocaleString', 0],
  ['Date', 'toLocaleDateString', 0],
  ['Date', 'toLocaleTimeString', 0],
];

type Call = (...given: unknown[]) => unknown;
type Holder = Record<string, unknown>;

/** Lets everything that is written, sorted or capitalised by the machine's locale go by another. @returns What puts all back. */
export function moveLocale(noted: (name: string) => void): (() => void)[] {
  const withLocale = (name: string, given: readonly unknown[], at: number) => {
    if (given[at] !== undefined) return given;
    noted(name);
    const locale = SORTING.includes(name) ? SORTING_LOCALE : LOCALE;
    return [...given.slice(0, at), ...Array(Math.max(0, at - given.length)), locale, ...given.slice(at + 1)];
  };
  return [
    ...FORMATS.map((name) => moveFormat(name, (given) => withLocale(`Intl.${name}`, given, 0))),
    ...LOCALISED.map(([owner, key, at]) => {
      const { prototype } = (globalThis as unknown as Record<string, { prototype: Holder }>)[owner];
      const original = prototype[key] as Call;
      return swap(prototype, key, function localised(this: unknown, ...given: unknown[]): unknown {
        return original.apply(this, [...withLocale(key, given, at)]);
      });
    }),
    ...moveNavigator(noted),
  ];
}

function moveFormat(
  name: (typeof FORMATS)[number],
  given: (given: readonly unknown[]) => readonly unknown[],
): () => void {
  const original = (Intl as unknown as Holder)[name];
  if (typeof original !== 'function') return () => {};
  const moved = new Proxy(original, {
    construct: (target, args, self) => Reflect.construct(target, given(args), self),
    apply: (target, self, args) => Reflect.apply(target as Call, self, given(args)),
  });
  return swap(Intl, name, moved);
}

function moveNavigator(noted: (name: string) => void): (() => void)[] {
  const { navigator } = globalThis as { navigator?: object };
  if (!navigator) return [];
  const said = { language: LOCALE, languages: [LOCALE] };
  return Object.entries(said).map(([key, value]) =>
    swapGetter(navigator, key, () => {
      noted(`navigator.${key}`);
      return value;
    }),
  );
}
