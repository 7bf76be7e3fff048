import { createHash } from "node:crypto";

const lines = 4000;

/** A text of about 150 kB that tells its number in every line and closes with the sum of all before: no part of it passes for a whole. */
export function textOf(version: number): string {
  const body = `{ "version": ${version}, "line": "of a pool" },\n`.repeat(lines);
  return body + createHash("sha256").update(body).digest("hex");
}

/** The number of a whole text; undefined for anything else. */
export function versionOf(text: string): number | undefined {
  const version = Number(/^\{ "version": (\d+)/.exec(text)?.[1]);
  return text === textOf(version) ? version : undefined;
}
