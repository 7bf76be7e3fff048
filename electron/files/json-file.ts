import { mkdir, readFile, rename } from "node:fs/promises";
import { dirname } from "node:path";
import type { z } from "zod";
import { writeAtomically } from "./write-atomically.ts";

/**
 * A small file of the app's own (settings, recent files, place of the window), checked by a schema whenever it is read.
 * One that is missing reads as `otherwise`; so does one that cannot be understood, which is set aside as `….unreadable`.
 */
export interface JsonFile<T> {
  read(): Promise<T>;
  /** @param mode permissions, where the file must be kept from other users of the machine */
  write(value: T, mode?: number): Promise<void>;
}

export function jsonFile<T>(path: string, schema: z.ZodType<T>, otherwise: T): JsonFile<T> {
  return {
    async read() {
      let text: string;
      try {
        text = await readFile(path, "utf8");
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return otherwise;
        throw error;
      }
      const parsed = schema.safeParse(parseOrNothing(text));
      if (parsed.success) return parsed.data;
      await rename(path, `${path}.unreadable`);
      return otherwise;
    },
    async write(value, mode) {
      await mkdir(dirname(path), { recursive: true });
      await writeAtomically(path, `${JSON.stringify(value, null, 2)}\n`, mode);
    },
  };
}

function parseOrNothing(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
