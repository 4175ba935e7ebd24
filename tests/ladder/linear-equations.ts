/** The solution of A x = b by Gauss's elimination with pivots, written for the tests as an independent way. */
export function solved(a: readonly (readonly number[])[], b: readonly number[]): readonly number[] {
  const rows = a.map((row, i) => [...row, b[i]!]);
  const n = rows.length;
  for (let column = 0; column < n; column += 1) {
    const pivot = rows.findIndex(
      (row, i) =>
        i >= column && rows.every((other, j) => j < column || Math.abs(row[column]!) >= Math.abs(other[column]!)),
    );
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let i = 0; i < n; i += 1) {
      const share = i === column ? 0 : rows[i]![column]! / rows[column]![column]!;
      rows[i] = rows[i]!.map((cell, j) => cell - share * rows[column]![j]!);
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}
