import { setConsoleFunction } from "three";

/** Told by three (0.187) about the clock that react-three-fiber (9.8) makes for itself: nothing that we could put right. */
const NOT_OURS = "Clock: This module has been deprecated";

/** Lets three write to the console as ever, but for that one remark: what stands there should mean something. */
export function sortNotes(): void {
  setConsoleFunction((level: "log" | "warn" | "error", message: string, ...more: unknown[]) => {
    // biome-ignore lint/suspicious/noConsole: these are three's own notes, handed on.
    if (!message.includes(NOT_OURS)) console[level](message, ...more);
  });
}
