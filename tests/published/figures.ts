/** Measured figures beside exact ones: printed, one line each, so that they can be quoted; the error is given back. */

export function printLine(line: string): void {
  // biome-ignore lint/suspicious/noConsole: the figures are to be read beside the tests' result
  console.info(line);
}

/** The error as a part of the exact figure. */
export function partOff(what: string, measured: number, exact: number, unit: string): number {
  const part = measured / exact - 1;
  printLine(
    `${what}: ${plain(measured)} ${unit}, exact ${plain(exact)}, off by ${(100 * part).toExponential(1)} %`,
  );
  return Math.abs(part);
}

/** The error in mm. */
export function mmOff(what: string, measured: number, exact: number): number {
  const off = measured - exact;
  printLine(
    `${what}: ${measured.toFixed(4)} mm, exact ${exact.toFixed(4)}, off by ${off.toExponential(1)} mm`,
  );
  return Math.abs(off);
}

/** Errors at steps that halve, with the order of convergence that each halving shows. */
export function printConvergence(
  what: string,
  steps: readonly number[],
  errors: readonly number[],
  unit: string,
): void {
  const cells = steps.map((step, i) => {
    const order = i > 0 && errors[i] !== 0 ? ` (order ${observedOrder(steps, errors, i).toFixed(1)})` : "";
    return `${step} mm: ${errors[i].toExponential(1)} ${unit}${order}`;
  });
  printLine(`${what}: ${cells.join("; ")}`);
}

/** The power of the step with which the error fell from step i − 1 to step i. */
const observedOrder = (steps: readonly number[], errors: readonly number[], i: number): number =>
  Math.log(Math.abs(errors[i - 1] / errors[i])) / Math.log(steps[i - 1] / steps[i]);

const plain = (value: number): string => (Math.abs(value) < 1000 ? value.toPrecision(7) : value.toFixed(1));
