import { findNodeAtLocation, type Node } from 'jsonc-parser';
import { Fault, type FaultKind } from '../../fault.ts';

/** Where in the file something stands: `['tiles', 0, 'layout']`. */
export type Place = readonly (string | number)[];

/** What is wrong at one place of a file. */
export interface Finding {
  /** From 1. */
  readonly line: number;
  /** The place in words, e.g. `tiles[0].layout`. */
  readonly place: string;
  readonly words: string;
}

/** So many are told; a file with more has one cause for most of them. */
const MOST_TOLD = 40;

/** What a file should be, for messages. */
export interface FileKind {
  /** E.g. `a recipe`. */
  readonly what: string;
  /** What to do about faults: a whole sentence. */
  readonly remedy: string;
}

/** Gathers all that is wrong with a file of the user's, so that it is told at once. */
export class Findings {
  readonly #file: string;
  readonly #kind: FileKind;
  readonly #tree: Node | undefined;
  /** Where each line ends, so that a hundred thousand findings do not each count them from the top. */
  readonly #lineEnds: readonly number[];
  readonly #warned: Finding[] = [];
  readonly #found = new Map<string, Finding>();

  constructor(file: string, text: string, tree: Node | undefined, kind: FileKind) {
    this.#file = file;
    this.#kind = kind;
    this.#tree = tree;
    this.#lineEnds = [...text.matchAll(/\n/g)].map(({ index }) => index);
  }

  get isEmpty(): boolean {
    return this.#found.size === 0;
  }

  /** What is not wrong and yet should be looked at, by line. */
  get warnings(): readonly Finding[] {
    return [...this.#warned].sort((a, b) => a.line - b.line);
  }

  /** Stops nothing: it is told, and the work goes on. */
  warn(place: Place, words: string): void {
    this.#warned.push({
      line: this.#lineOf(this.#offsetOf(place, undefined)),
      place: wordsOfPlace(place),
      words,
    });
  }

  /** @param key Of the object at `place`, where the name of a property itself is wrong. */
  add(place: Place, words: string, key?: string): void {
    const offset = this.#offsetOf(place, key);
    this.addAt(offset, wordsOfPlace(key === undefined ? place : [...place, key]), words);
  }

  addAt(offset: number, place: string, words: string): void {
    const line = this.#lineOf(offset);
    this.#found.set(`${line}\n${place}\n${words}`, { line, place, words });
  }

  /** Runs a check; a Fault of the user's becomes a finding. Anything else is thrown on. */
  try<T>(place: Place, check: () => T): T | undefined {
    try {
      return check();
    } catch (error) {
      this.addFault(place, error);
      return undefined;
    }
  }

  /** The same for a check that takes time. */
  async tryLater<T>(place: Place, check: () => Promise<T>): Promise<T | undefined> {
    try {
      return await check();
    } catch (error) {
      this.addFault(place, error);
      return undefined;
    }
  }

  addFault(place: Place, error: unknown): void {
    if (!Fault.is(error) || error.kind === 'cancelled') throw error;
    this.add(place, wordsOfFault(error));
  }

  /** @throws Fault (input) that lists every finding with its line, by line. */
  throwIfAny(kind: FaultKind = 'input'): void {
    if (this.isEmpty) return;
    const list = [...this.#found.values()].sort((a, b) => a.line - b.line);
    const told = list
      .slice(0, MOST_TOLD)
      .map(({ line, place, words }) => `\n  line ${line}, ${place}: ${words}`);
    const rest = list.length > MOST_TOLD ? `\n  and ${list.length - MOST_TOLD} more` : '';
    const count = list.length === 1 ? 'one fault' : `${list.length} faults`;
    const expected = `${this.#kind.what} without faults`;
    throw new Fault({
      kind,
      expected,
      subject: this.#file,
      received: `${count}:${told.join('')}${rest}`,
      saying: `Expected ${expected}, but ${this.#file} has ${count}:${told.join('')}${rest}\n `,
      remedy: this.#kind.remedy,
      details: { findings: list },
    });
  }

  /** From 1: how many lines end before it, by halving. */
  #lineOf(offset: number): number {
    let [low, high] = [0, this.#lineEnds.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#lineEnds[middle] < offset) low = middle + 1;
      else high = middle;
    }
    return low + 1;
  }

  /** Of the deepest part of the place that is in the file. */
  #offsetOf(place: Place, key: string | undefined): number {
    if (!this.#tree) return 0;
    for (let length = place.length; length >= 0; length--) {
      const node = findNodeAtLocation(this.#tree, [...place.slice(0, length)]);
      if (!node) continue;
      const property = key !== undefined && length === place.length ? propertyNamed(node, key) : undefined;
      return (
        property?.offset ??
        (length === place.length
          ? node.parent?.type === 'property'
            ? node.parent.offset
            : node.offset
          : node.offset)
      );
    }
    return 0;
  }
}

function propertyNamed({ children = [] }: Node, key: string): Node | undefined {
  return children.find(({ type, children: pair }) => type === 'property' && pair?.[0].value === key);
}

/** `tiles[0].layout` */
export function wordsOfPlace(place: Place): string {
  const words = place.map((part) => (typeof part === 'number' ? `[${part}]` : `.${part}`)).join('');
  return words.replace(/^\./, '') || 'the whole';
}

/** A command's options are properties here. */
function wordsOfFault({ message }: Fault): string {
  const words = message.replace(/^(Expected|No|There) /, (word) => word.toLowerCase());
  return words
    .replaceAll(
      /Or add --fit to take the nearest\.|or add --fit to let it be done/g,
      'or write "fit": true to take the nearest.',
    )
    .replaceAll('--fit', '"fit": true')
    .replaceAll(/--(size|dpi|blend|opacity|ways|card|colourway)\b/g, '"$1"');
}
