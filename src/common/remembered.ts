/**
 * Remembers what was worked out for each object, as long as the object lives: for what follows from a state that never
 * changes in place, and costs. `remembered(settle)(rule)` settles once for each rule.
 */
export function remembered<Of extends object, Result>(work: (of: Of) => Result): (of: Of) => Result {
  const known = new WeakMap<Of, { readonly result: Result }>();
  return (of) => {
    const found = known.get(of) ?? { result: work(of) };
    known.set(of, found);
    return found.result;
  };
}
