import { validate, version } from 'uuid';
import { describe, expect, it } from 'vitest';
import { entryIds, momentOf } from '../../src/journal/entry-ids.ts';

describe('ids of entries', () => {
  it('are UUIDs of version 7 that carry their moment (RFC 9562, checked by the uuid library)', () => {
    const id = entryIds(null, () => 1_700_000_000_000)();
    expect(validate(id) && version(id)).toBe(7);
    expect(momentOf(id)).toBe(1_700_000_000_000);
  });

  it('rise within one millisecond', () => {
    const next = entryIds(null, () => 1_700_000_000_000);
    const ids = Array.from({ length: 1000 }, next);
    expect([...ids].sort()).toEqual(ids);
    expect(new Set(ids).size).toBe(1000);
  });

  it('rise when the clock is set back, within a sitting and from one to the next', () => {
    let wall = 1_700_000_000_000;
    const next = entryIds(null, () => wall);
    const before = next();
    wall -= 3_600_000;
    const after = next();
    expect(after > before).toBe(true);
    expect(entryIds(after, () => wall)() > after).toBe(true);
  });

  it('carry the clock where it runs on, and the next millisecond where it does not', () => {
    let wall = 1_700_000_000_000.9;
    const first = entryIds(null, () => wall)();
    expect(momentOf(first)).toBe(1_700_000_000_000);
    // Another sitting in the same millisecond: the ids of the one before may have come to their last.
    const next = entryIds(first, () => wall);
    expect([next(), next()].map(momentOf)).toEqual([1_700_000_000_001, 1_700_000_000_001]);
    wall += 5;
    expect(momentOf(next())).toBe(1_700_000_000_005);
    wall -= 60_000;
    expect(momentOf(next())).toBe(1_700_000_000_005);
  });

  it('count up by one within a millisecond, in the bits that RFC 9562 leaves for it', () => {
    const next = entryIds(null, () => 1_700_000_000_000);
    // As the uuid library lays it out: 12 bits after the version's digit, and more after the variant's two bits.
    const counts = Array.from({ length: 3 }, () => {
      const hex = next().replaceAll('-', '');
      return (BigInt(`0x${hex.slice(13, 16)}`) << 62n) | (BigInt(`0x${hex.slice(16)}`) & ((1n << 62n) - 1n));
    });
    const [a = 0n, b = 0n, c = 0n] = counts;
    expect(a < b && b < c).toBe(true);
  });

  it('of two machines differ in more than their moment', () => {
    expect(entryIds(null, Date.now)().slice(19)).not.toBe(entryIds(null, Date.now)().slice(19));
  });
});
