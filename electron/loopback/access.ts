import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";

/** 256 random bits as text that stands unchanged in an address. */
export function secret(): string {
  return randomBytes(32).toString("base64url");
}

/** Compares without telling by its time how far they agree. */
export function sameSecret(a: string, b: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}

/** The key that a request carries: `Authorization: Bearer …`. A cookie would go to every server on this machine. */
export function keyOf(headers: IncomingHttpHeaders): string {
  return /^Bearer (\S+)$/.exec(headers.authorization ?? "")?.[1] ?? "";
}

/**
 * Whether a request was made to this server by its own name. Another site's page may reach a server on this machine
 * under a name of its own (DNS rebinding); its Host header gives that away.
 */
export function isOwnHost(headers: IncomingHttpHeaders, port: number): boolean {
  return names(port).includes(headers.host ?? "");
}

/** Whether the question comes from a page of this server, or from no page at all (a second start). */
export function isOwnOrigin(headers: IncomingHttpHeaders, port: number): boolean {
  const { origin } = headers;
  return origin === undefined || names(port).some((name) => origin === `http://${name}`);
}

function names(port: number): string[] {
  return [`127.0.0.1:${port}`, `localhost:${port}`];
}
