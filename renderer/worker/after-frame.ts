/** Acts once the next frame is done: laid out, painted and, without a graphics card, drawn. Tells how long that took, ms. */
export function afterFrame(act: (tookMs: number) => void): void {
  const from = performance.now();
  requestAnimationFrame(() => setTimeout(() => act(performance.now() - from), 0));
}
