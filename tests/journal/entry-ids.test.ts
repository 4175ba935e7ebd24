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

  it('of two machines differ in more than their moment', () => {
    expect(entryIds(null, Date.now)().slice(19)).not.toBe(entryIds(null, Date.now)().slice(19));
  });
});
