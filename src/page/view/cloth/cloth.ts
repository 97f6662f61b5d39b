import { type Signal, signal } from '@preact/signals';
import { LIFE_SIZE } from '../../../collection/page/cloth-view.ts';
import type { View } from '../../../collection/page/paint-cloth.ts';
import { parseLayout, type Repeat } from '../../../repeat/index.ts';
import type { Look } from '../../words/look.ts';

/** A look that has come: its facts, and its pixels ready to be drawn. */
export interface Shown {
  readonly look: Look;
  readonly picture: CanvasImageSource & { readonly width: number; readonly height: number };
}

/** Who takes the pointer instead of moving the cloth. Points are mm of the plane. */
export interface ClothHand {
  readonly cursor: string;
  down(point: ClothPoint): void;
  move(point: ClothPoint): void;
  up(): void;
  /** What was begun is given up, as where a second finger comes down; `up` is called where there is none. */
  cancel?(): void;
  /** The pointer is over the cloth and not down; none once it has left. */
  hover?(point: ClothPoint | undefined): void;
  /** A key is pressed on the cloth. @returns Whether the hand took it; else the cloth has it. */
  key?(key: string, isShift: boolean): boolean;
}

export interface ClothPoint {
  readonly x: number;
  readonly y: number;
  /** 0..1; 0.5 where the device knows none. */
  readonly pressure: number;
  /** True for the pen's other end and the right button. */
  readonly turned?: boolean;
}

/** Draws over the cloth, in CSS px of its window. */
export type Overlay = (context: CanvasRenderingContext2D, view: View) => void;

/** CSS px. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** Of one tile, mm, and how it stands, as `parseLayout` reads it. */
export interface ClothRepeat {
  readonly width: number;
  readonly height: number;
  readonly layout: string;
}

/** The scale at which the cloth is as large as it will be made. */
export interface TrueSize {
  /** CSS px per mm. */
  readonly scale: number;
  /** Whether a card was held to this screen; else it is taken at its word, 96 px to the inch. */
  readonly isFitted: boolean;
}

/** Which lines are drawn over the cloth. */
export interface Marks {
  /** The boundary of every tile, and how it is turned. */
  readonly edge: boolean;
  /** Where tiles meet. */
  readonly seams: boolean;
}

/** The cloth that fills the window: what it shows and from where. All parts of the page share one. */
export class Cloth {
  /** From where it is looked at. */
  readonly view: Signal<View> = signal({ left: 0, top: 0, scale: 1 });
  /** CSS px of its window. */
  readonly room: Signal<Room> = signal({ width: 0, height: 0 });
  /** One whole period, laid over the lattice without end. */
  readonly period: Signal<Shown | undefined> = signal(undefined);
  /** A finer part, laid on it, and on the same place of every period. */
  readonly part: Signal<Shown | undefined> = signal(undefined);
  /** Another cloth folded over this one, from the left up to `at` (0..1 of the window). */
  readonly folded: Signal<{ readonly period: Shown; readonly at: number } | undefined> = signal(undefined);
  readonly hand: Signal<ClothHand | undefined> = signal(undefined);
  readonly overlays: Signal<readonly Overlay[]> = signal([]);
  /** Of one tile, mm, and how it stands; for the boundary, the seams and the whole view. */
  readonly repeat: Signal<ClothRepeat> = signal({ width: 100, height: 100, layout: 'straight' });
  readonly marks: Signal<Marks> = signal({ edge: false, seams: false });
  readonly trueSize: Signal<TrueSize> = signal({ scale: LIFE_SIZE, isFitted: false });
}

/** The same as the house takes it. @throws Fault (usage) for a layout that is none. */
export function repeatOf(repeat: ClothRepeat): Repeat {
  return { ...repeat, layout: parseLayout(repeat.layout) };
}
