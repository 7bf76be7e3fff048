import { readFile, realpath } from "node:fs/promises";
import { extname, isAbsolute, join, relative } from "node:path";

/** Text of the page may come from the page's own folder only; WebAssembly may be compiled, nothing may be evaluated. */
const policy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Sent with every file of the page, by the app's own protocol and by the loopback server alike. */
export const pageHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy": policy,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": "camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), payment=()",
};

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".ico": "image/x-icon",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
  ".ttf": "font/ttf",
  ".txt": "text/plain; charset=utf-8",
  ".webmanifest": "application/manifest+json",
};

export interface PageFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly headers: Readonly<Record<string, string>>;
}

/**
 * A file of the built page by the path of its address, `/` being index.html; undefined for whatever does not lie in the
 * folder, links that lead out of it included, or is of a kind that a page has no use for.
 * @param folder the built page
 * @param pathname as the URL has it, still percent-encoded
 */
export async function pageFile(folder: string, pathname: string): Promise<PageFile | undefined> {
  const path = insideFolder(folder, pathname);
  const type = path && types[extname(path).toLowerCase()];
  if (!type) return undefined;
  try {
    const [realFolder, realFile] = await Promise.all([realpath(folder), realpath(path)]);
    if (!contains(realFolder, realFile)) return undefined;
    return {
      bytes: new Uint8Array(await readFile(realFile)),
      headers: { ...pageHeaders, "Content-Type": type },
    };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR" || code === "EISDIR" || code === "ENAMETOOLONG")
      return undefined;
    throw error;
  }
}

/** The path in the folder that an address stands for; undefined when it stands for none. */
function insideFolder(folder: string, pathname: string): string | undefined {
  let decoded: string;
  try {
    decoded = decodeURIComponent(pathname);
  } catch {
    return undefined;
  }
  // A backslash parts folders on Windows, a colon names drives and streams there; no file of a page has either.
  if (/[\\:\0]/.test(decoded)) return undefined;
  // Without its leading slash the rest counts from the folder, not from the root of the disk.
  const path = join(folder, decoded.replace(/^\/+/, "") || "index.html");
  return contains(folder, path) ? path : undefined;
}

function contains(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith("../") && !way.startsWith("..\\") && !isAbsolute(way);
}
