/** Counts what vitest ran, from its JSON report. */
import { existsSync, readFileSync } from "node:fs";

/**
 * @typedef {object} Count
 * @property {number} passed
 * @property {string[]} failures names of the tests and files that failed
 * @property {string[]} skipped names of the tests that did not run
 */

/**
 * A run that wrote no report, ran no test, or ended badly without naming a failed test (an error outside any test)
 * counts as a failure of its own: silence never passes.
 * @param {string} file vitest's JSON report
 * @param {boolean} endedWell whether vitest's exit code was 0
 * @returns {Count}
 */
export function countTests(file, endedWell) {
  if (!existsSync(file)) return { passed: 0, failures: ["vitest wrote no report"], skipped: [] };
  const { testResults } = JSON.parse(readFileSync(file, "utf8"));
  /** @type {Count} */
  const count = { passed: 0, failures: [], skipped: [] };
  for (const { name, status, message, assertionResults } of testResults) {
    for (const { fullName, status } of assertionResults) {
      if (status === "passed") count.passed++;
      else if (status === "failed") count.failures.push(fullName);
      else count.skipped.push(fullName);
    }
    const testFailed = assertionResults.some(
      (/** @type {{ status: string }} */ test) => test.status === "failed",
    );
    if (status === "failed" && !testFailed) count.failures.push(`${name}: ${message || "could not be run"}`);
  }
  if (count.passed + count.failures.length === 0) count.failures.push("vitest ran no test");
  else if (!endedWell && count.failures.length === 0)
    count.failures.push("vitest reported an error outside the tests");
  return count;
}
