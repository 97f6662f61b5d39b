/** What stands around an effect and is no argument of it; timers run late where they are others. */
export const SURROUNDINGS = [
  'chance',
  'clock',
  'timers',
  'time zone',
  'locale',
  'environment',
  'machine',
] as const;

/** Timers that run out at once end a wait that nobody should have to wait for: only who works by them differs. */
export type Surrounding = (typeof SURROUNDINGS)[number] | 'early timers';

/** What an effect drew from that is no argument of it. */
export interface Drawn {
  readonly sort: Surrounding | 'outside';
  /** As an author writes it, with what it is of. */
  readonly name: string;
}

export type Note = (drawn: Drawn) => void;
