import { createContext, useContext, useLayoutEffect } from 'react';
import type { PaintedLine } from '../paint.ts';

/** Where finished drawings go: the terminal's own lines, or a test's eye. */
export type Paint = (lines: readonly PaintedLine[]) => void;

export const PaintContext = createContext<Paint>(() => {});

/**
 * Hands a drawing over as soon as React has settled it. The lines do not go through Ink's own output: laying
 * out and measuring every character of a full screen anew took some 20 ms a frame, and the beat waits for nobody.
 */
export function Painting({ lines }: { readonly lines: readonly PaintedLine[] }) {
  const paint = useContext(PaintContext);
  useLayoutEffect(() => paint(lines));
  return null;
}
