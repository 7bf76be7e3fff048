import { asking, type Carrier } from "./ask.ts";
import { HostError, loopbackEntry } from "./contract.ts";

const keyPlace = "ribband.key";
const startAgain = "Run `npm start` again and use the address that it gives.";

interface Entered {
  readonly carry: Carrier;
  readonly named: string | null;
  /** Why the ticket let nobody in; the page goes on with the key that this browser has, and says so. */
  readonly usedBefore: string | null;
}

/**
 * The way to the loopback server that served this page, and the file it was asked to open; undefined when the page was
 * served by something else. The ticket in the address is traded for the key once; the key stays with this browser.
 */
export async function enterLoopback(): Promise<Entered | undefined> {
  const ticket = ticketHere();
  goInAnew();
  const kept = localStorage.getItem(keyPlace);
  if (ticket === null)
    return kept === null ? undefined : { carry: carrier(kept), named: null, usedBefore: null };

  // The ticket is of no more use, and an address with one is not to be kept or passed on.
  history.replaceState(null, "", location.pathname + location.search);
  const entered = await asking({ enter: loopbackEntry }, carrier(""))("enter", { ticket });
  if (entered) {
    localStorage.setItem(keyPlace, entered.key);
    return { carry: carrier(entered.key), named: entered.named, usedBefore: null };
  }
  const usedBefore = `This address was used before. ${startAgain}`;
  if (kept === null) throw new HostError(usedBefore);
  return { carry: carrier(kept), named: null, usedBefore };
}

const ticketHere = (): string | null => new URLSearchParams(location.hash.slice(1)).get("ticket");

/** A new address entered in this tab differs after the # alone, which browsers take for the same page: it is loaded anew, so that it lets in. */
function goInAnew(): void {
  addEventListener("hashchange", () => {
    if (ticketHere() !== null) location.reload();
  });
}

function carrier(key: string): Carrier {
  return async (channel, question) => {
    const response = await fetch(`/host/${channel}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", Authorization: `Bearer ${key}` },
      body: JSON.stringify({ question }),
    }).catch(() => {
      throw new HostError(`Ribband's server has ended. ${startAgain}`);
    });
    if (response.status === 401) throw new HostError(`Ribband was started anew since. ${startAgain}`);
    if (!response.ok) throw new HostError(`Ribband's server refused: ${(await response.text()).trim()}.`);
    return response.json();
  };
}
