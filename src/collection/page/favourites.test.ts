import { describe, expect, it } from 'vitest';
import { type Drawer, Favourites } from './favourites.ts';

function drawerOf(kept: Map<string, string>): Drawer {
  return { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) };
}

describe('favourites', () => {
  it('are there again when the page is, each collection for itself', () => {
    const drawer = drawerOf(new Map());
    new Favourites('spring', () => drawer).toggle('sprig.png');
    expect(new Favourites('spring', () => drawer).has('sprig.png')).toBe(true);
    expect(new Favourites('autumn', () => drawer).has('sprig.png')).toBe(false);
  });
  it('last until the page is closed where the browser keeps nothing, and say so', () => {
    const denied = new Favourites('spring', () => {
      throw new DOMException('denied', 'SecurityError');
    });
    denied.toggle('sprig.png');
    expect([denied.has('sprig.png'), denied.isKept]).toEqual([true, false]);
  });
  it('begin empty where something else is kept under their key', () => {
    for (const text of ['{"a":1}', 'null', '[[', '[3]']) {
      const favourites = new Favourites('spring', () => drawerOf(new Map([['spring', text]])));
      expect([favourites.has('3'), favourites.isKept], text).toEqual([false, true]);
    }
  });
});
