import { fixed } from "../../../../core/units/print.ts";

/** A name for a model in another length: what the name says of its size in metres is put right, or the length is put behind it. */
export function nameInSize(name: string, lengthMm: number): string {
  const metres = String(Number(fixed(lengthMm / 1000, 1)));
  const stem = name.replace(/\s*\d+([.,]\d+)?\s*(m|metres?)?$/i, "").trim() || name;
  return `${stem} ${metres}`;
}
