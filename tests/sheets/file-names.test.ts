import { expect, test } from "vitest";
import { fileNamesFor } from "../../core/sheets/file-names.ts";

test("names are fit for any system, and no two are the same", () => {
  const labels = [
    "foot/1a",
    "Foot 1A",
    "Größe: ½",
    "布",
    "../../etc",
    "con",
    "x".repeat(200),
    "x".repeat(201),
  ];
  expect(fileNamesFor(labels)).toEqual([
    "foot-1a",
    "foot-1a-2",
    "gro-e-1-2",
    "unnamed_",
    "etc",
    "con_",
    "x".repeat(60),
    `${"x".repeat(60)}-2`,
  ]);
});
