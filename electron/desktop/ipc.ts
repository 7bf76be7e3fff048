import type { desktopEvents, Outcome } from "../../renderer/document/host/contract.ts";
import type { Answer } from "../channels/answer.ts";
import type { Frame } from "./guards.ts";

/** Channels and events have this before their name on the wire. */
export const wirePrefix = "ribband:";

interface Questions {
  handle(
    channel: string,
    listener: (event: { readonly senderFrame: Frame | null }, ...args: unknown[]) => Promise<Outcome>,
  ): void;
}

/**
 * Listens to the page on every channel. Who asks is checked first, what is asked next (in `answer`).
 * @param ipc Electron's ipcMain
 */
export function listen(
  ipc: Questions,
  channels: readonly string[],
  isTrusted: (sender: Frame | null) => boolean,
  answer: Answer,
): void {
  for (const channel of channels) {
    ipc.handle(wirePrefix + channel, async (event, question) =>
      isTrusted(event.senderFrame)
        ? answer(channel, question)
        : { ok: false, sentence: "Only the app's own page is listened to." },
    );
  }
}

/** Says something to the page unasked. */
export function tell(
  page: { send(channel: string, ...args: unknown[]): void },
  event: keyof typeof desktopEvents,
  value?: unknown,
): void {
  page.send(wirePrefix + event, value);
}
