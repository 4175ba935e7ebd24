/** Just enough linear algebra for a few hundred lines: symmetric, positive definite matrices, row by row. */

export interface Square {
  readonly size: number;
  readonly cells: Float64Array;
}

export const squareOf = (size: number, of: (row: number, column: number) => number): Square => ({
  size,
  cells: Float64Array.from({ length: size * size }, (_, i) => of(Math.floor(i / size), i % size)),
});

/** The product of two stretches of the same array; two sums, so that one need not wait for the other. */
function dot(cells: Float64Array, a: number, b: number, length: number): number {
  let [even, odd] = [0, 0];
  let k = 0;
  for (; k + 1 < length; k += 2) {
    even += cells[a + k]! * cells[b + k]!;
    odd += cells[a + k + 1]! * cells[b + k + 1]!;
  }
  return k < length ? even + odd + cells[a + k]! * cells[b + k]! : even + odd;
}

/** Cholesky's factor: lower triangular, its product with its own transpose is the matrix. */
export function cholesky({ size, cells }: Square): Square {
  const out = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      const sum = cells[row * size + column]! - dot(out, row * size, column * size, column);
      out[row * size + column] = row === column ? Math.sqrt(sum) : sum / out[column * size + column]!;
    }
  }
  return { size, cells: out };
}

/** The solution of L x = b, with L lower triangular. */
export function solveLower({ size, cells }: Square, b: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let row = 0; row < size; row += 1) {
    let sum = b[row]!;
    for (let k = 0; k < row; k += 1) sum -= cells[row * size + k]! * x[k]!;
    x[row] = sum / cells[row * size + row]!;
  }
  return x;
}

/** The solution of the transpose of L times x = b. */
export function solveUpper({ size, cells }: Square, b: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(b);
  for (let row = size - 1; row >= 0; row -= 1) {
    const value = (x[row]! /= cells[row * size + row]!);
    for (let k = 0; k < row; k += 1) x[k]! -= cells[row * size + k]! * value;
  }
  return x;
}

/** The diagonal of the inverse of the matrix whose Cholesky factor this is. */
export function inverseDiagonal({ size, cells }: Square): Float64Array {
  const out = new Float64Array(size);
  const column = new Float64Array(size);
  for (let k = 0; k < size; k += 1) {
    // Column k of the factor's inverse starts at row k; the sum of its squares is the entry sought.
    for (let row = k; row < size; row += 1) {
      let sum = row === k ? 1 : 0;
      for (let j = k; j < row; j += 1) sum -= cells[row * size + j]! * column[j]!;
      column[row] = sum / cells[row * size + row]!;
      out[k]! += column[row]! ** 2;
    }
  }
  return out;
}
