import { rm } from "node:fs/promises";
import { request } from "node:http";
import { join } from "node:path";
import { text } from "node:stream/consumers";
import { z } from "zod";
import { outcome } from "../../renderer/document/host/contract.ts";
import { jsonFile } from "../files/json-file.ts";
import { type Loopback, secondStart } from "./server.ts";

const answerWithinMs = 3000;
const serving = z.strictObject({
  pid: z.number().int(),
  port: z.number().int().min(1).max(65535),
  starterKey: z.string(),
});

/** The note by which a second start finds the first; only its owner may read it, for it holds the key. */
export function servingNote(folder: string) {
  const path = join(folder, "serving.json");
  const file = jsonFile(path, serving.nullable(), null);
  return {
    write: ({ port, starterKey }: Loopback) => file.write({ pid: process.pid, port, starterKey }, 0o600),
    /** Takes the note away, unless another start has written its own by now. */
    async remove() {
      if ((await file.read())?.pid === process.pid) await rm(path, { force: true });
    },
    /** An address at the server that runs already, or undefined when none does. */
    async addressAtRunning(named: string | null): Promise<string | undefined> {
      const note = await file.read();
      if (!note || note.pid === process.pid) return undefined;
      return askRunning(note, named);
    },
  };
}

async function askRunning({ port, starterKey }: z.infer<typeof serving>, file: string | null) {
  try {
    const answered = outcome.parse(
      JSON.parse(await post(port, starterKey, JSON.stringify({ question: { file } }))),
    );
    return answered.ok ? secondStart.answer.parse(answered.value).address : undefined;
  } catch {
    // Nobody there, or somebody else: the note was left by a server that was killed.
    return undefined;
  }
}

/**
 * Node's fetch will not do here: when the other side drops the connection unheard it waits on, and its time limit keeps no
 * process alive, so that a start ended without a word (Node 20.20).
 */
function post(port: number, starterKey: string, body: string): Promise<string> {
  return new Promise((done, fail) => {
    const asked = request({
      host: "127.0.0.1",
      port,
      path: "/host/start",
      method: "POST",
      headers: { "Content-Type": "application/json", Authorization: `Bearer ${starterKey}` },
    });
    const limit = setTimeout(() => asked.destroy(new Error("no answer in time")), answerWithinMs);
    asked.once("close", () => clearTimeout(limit));
    asked.once("error", fail);
    asked.once("response", (response) => text(response).then(done, fail));
    asked.end(body);
  });
}
