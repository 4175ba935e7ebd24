import { describe, expect, it } from 'vitest';
import { cholesky, inverseDiagonal, solveLower, solveUpper, squareOf } from '../../src/ladder/speed/matrix.ts';

describe('a matrix', () => {
  it('solves a matrix whose inverse is known: the Hilbert matrix of size 3', () => {
    // Its inverse is 9 -36 30, -36 192 -180, 30 -180 180 (mathematics, any handbook).
    const factor = cholesky(squareOf(3, (i, j) => 1 / (i + j + 1)));
    [...inverseDiagonal(factor)].forEach((d, i) => expect(d).toBeCloseTo([9, 192, 180][i]!, 6));
    [...solveUpper(factor, solveLower(factor, [1, 0, 0]))].forEach((x, i) =>
      expect(x).toBeCloseTo([9, -36, 30][i]!, 6),
    );
  });
});
