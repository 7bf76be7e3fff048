import { asking } from "./ask.ts";
import { browserHost } from "./browser-host.ts";
import { type Bridge, machineChannels } from "./contract.ts";
import { database } from "./database.ts";
import { desktopHost } from "./desktop-host.ts";
import type { Host } from "./host.ts";
import { enterLoopback } from "./loopback-carrier.ts";
import { pageMachine } from "./page-machine.ts";

/**
 * The host for the place where this page runs: the desktop window, the loopback server of `npm start`, or a page served by
 * anything else. Rejects with a HostError when the address was used before and so lets nobody in.
 */
export async function makeHost(): Promise<Host> {
  const { ribband } = globalThis as { ribband?: Bridge };
  if (ribband) return desktopHost(ribband);
  const loopback = await enterLoopback();
  if (loopback)
    return browserHost(asking(machineChannels, loopback.carry), loopback.named, loopback.usedBefore);
  const alone = pageMachine(database());
  return browserHost((name, question) => alone[name](question as never) as never, null);
}
