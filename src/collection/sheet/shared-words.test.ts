import { describe, expect, it } from 'vitest';
import { sharedWords, withoutShared } from './shared-words.ts';

describe('words that names share', () => {
  it('are whole words at their beginning', () => {
    expect(sharedWords(['linen-weave-apron', 'linen-weave-sack'])).toBe('linen-weave-');
    expect(sharedWords(['linen-weave-apron', 'linen-weaver'])).toBe('linen-');
    expect(sharedWords(['linen', 'silk'])).toBe('');
  });
  it('leave at least a word of each, and leave one name alone', () => {
    expect(sharedWords(['salt-bloom', 'salt-bloom-cellar'])).toBe('salt-');
    expect(sharedWords(['salt-bloom'])).toBe('');
  });
  it('are taken from the beginning only', () => {
    expect(withoutShared('salt-bloom', 'salt-')).toBe('bloom');
    expect(withoutShared('bloom-salt-', 'salt-')).toBe('bloom-salt-');
  });
});
