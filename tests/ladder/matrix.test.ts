import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Square,
  cholesky,
  inverseDiagonal,
  solveLower,
  solveUpper,
  squareOf,
} from '../../src/ladder/speed/matrix.ts';
import { solved } from './linear-equations.ts';

/** The product of any matrix with its own transpose, and something on the diagonal: symmetric, positive definite. */
const anySquare: fc.Arbitrary<Square> = fc.integer({ min: 1, max: 7 }).chain((size) =>
  fc
    .array(fc.array(fc.integer({ min: -5, max: 5 }), { minLength: size, maxLength: size }), {
      minLength: size,
      maxLength: size,
    })
    .map((rows) =>
      squareOf(size, (i, j) => rows[i]!.reduce((sum, x, k) => sum + x * rows[j]![k]!, i === j ? 1 + i : 0)),
    ),
);

const rowsOf = ({ size, cells }: Square): number[][] =>
  Array.from({ length: size }, (_, row) => Array.from(cells.subarray(row * size, (row + 1) * size)));
const ones = (n: number, at: number): number[] => Array.from({ length: n }, (_, i) => (i === at ? 1 : 0));

describe('a matrix', () => {
  it('is made cell by cell, row by row', () => {
    expect(rowsOf(squareOf(2, (row, column) => 10 * row + column))).toEqual([
      [0, 1],
      [10, 11],
    ]);
  });

  it('is the product of its factor with its transpose, and the factor is lower triangular', () => {
    fc.assert(
      fc.property(anySquare, (square) => {
        const factor = rowsOf(cholesky(square));
        rowsOf(square).forEach((row, i) =>
          row.forEach((cell, j) => {
            expect(factor[i]!.reduce((sum, x, k) => sum + x * factor[j]![k]!, 0)).toBeCloseTo(cell, 6);
            if (j > i) expect(factor[i]![j]).toBe(0);
          }),
        );
      }),
    );
  });

  it('gives by its factor the solutions of its equations, and the diagonal of its inverse', () => {
    fc.assert(
      fc.property(anySquare, (square) => {
        const factor = cholesky(square);
        const b = Array.from({ length: square.size }, (_, i) => i + 1);
        const rows = rowsOf(square);
        const x = solved(rows, b);
        [...solveUpper(factor, solveLower(factor, b))].forEach((one, i) => expect(one).toBeCloseTo(x[i]!, 6));
        [...inverseDiagonal(factor)].forEach((one, i) =>
          expect(one).toBeCloseTo(solved(rows, ones(square.size, i))[i]!, 6),
        );
      }),
    );
  });

  it('whose inverse is known is solved: the Hilbert matrix of size 3', () => {
    // Its inverse is 9 -36 30, -36 192 -180, 30 -180 180 (mathematics, any handbook).
    const factor = cholesky(squareOf(3, (i, j) => 1 / (i + j + 1)));
    [...inverseDiagonal(factor)].forEach((d, i) => expect(d).toBeCloseTo([9, 192, 180][i]!, 6));
    [...solveUpper(factor, solveLower(factor, [1, 0, 0]))].forEach((x, i) =>
      expect(x).toBeCloseTo([9, -36, 30][i]!, 6),
    );
  });
});
