/** The page's own origin; app-protocol.ts serves it. */
export const appScheme = "app";
const appHost = "ribband";
export const appAddress = `${appScheme}://${appHost}/index.html`;

/** Sites that a link may open in the person's browser. The app links nowhere yet. */
export const outsideHosts: readonly string[] = [];

/** Whether an address is a page of the app's own. Parsed, never compared as text: `app://ribband.example` is another. */
export function isOwnPage(address: string): boolean {
  const url = parse(address);
  return (
    url?.protocol === `${appScheme}:` && url.host === appHost && url.username === "" && url.password === ""
  );
}

/** Whether a link may be handed to the system: https, to a listed site, without credentials or a port of its own. */
export function mayOpenOutside(address: string, hosts: readonly string[] = outsideHosts): boolean {
  const url = parse(address);
  return url?.protocol === "https:" && hosts.includes(url.host) && url.username === "" && url.password === "";
}

/** A frame as Electron names it (WebFrameMain). */
export interface Frame {
  readonly url: string;
  readonly processId: number;
  /** Unique in its process. */
  readonly frameToken: string;
}

/**
 * Only the window's own main frame, showing the app's own page, is listened to.
 * @param sender null once the frame is gone
 */
export function isTrustedSender(sender: Frame | null, mainFrame: Frame | undefined): boolean {
  return (
    sender !== null &&
    sender.processId === mainFrame?.processId &&
    sender.frameToken === mainFrame.frameToken &&
    isOwnPage(sender.url)
  );
}

function parse(address: string): URL | undefined {
  return URL.canParse(address) ? new URL(address) : undefined;
}
