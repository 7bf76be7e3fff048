import { expect, test } from "vitest";
import { onUnexpected } from "../../renderer/frame/unexpected.ts";

const event = (name: string, what: object) => Object.assign(new Event(name), what);

test("an error that nobody caught is told, in a handler or in a promise; the browser's remark on layout is not", () => {
  const page = new EventTarget();
  const told: unknown[] = [];
  const leave = onUnexpected(page, (error) => told.push(error));
  const fault = new Error("no such zone");
  page.dispatchEvent(event("error", { error: fault, message: "Uncaught Error: no such zone" }));
  page.dispatchEvent(event("unhandledrejection", { reason: fault }));
  page.dispatchEvent(event("error", { error: null, message: "Script error." }));
  page.dispatchEvent(
    event("error", { error: null, message: "ResizeObserver loop completed with undelivered notifications." }),
  );
  expect(told).toEqual([fault, fault, "Script error."]);
  leave();
  page.dispatchEvent(event("error", { error: fault }));
  expect(told).toHaveLength(3);
});
