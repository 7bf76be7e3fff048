import { sameSecret, secret } from "./access.ts";

/**
 * Tickets stand in the addresses that are printed or handed to a browser; other users of the machine may see those in
 * its list of processes. So a ticket lets in once, and then shows nothing.
 */
export interface Tickets {
  /** @param named handle of the project that the page is to open, or null */
  issue(named: string | null): string;
  /** undefined when the ticket was used before or never issued */
  take(ticket: string): { named: string | null } | undefined;
}

export function tickets(): Tickets {
  const issued = new Map<string, string | null>();
  return {
    issue(named) {
      const ticket = secret();
      issued.set(ticket, named);
      return ticket;
    },
    take(ticket) {
      for (const [other, named] of issued) {
        if (!sameSecret(ticket, other)) continue;
        issued.delete(other);
        return { named };
      }
      return undefined;
    },
  };
}
