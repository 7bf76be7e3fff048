import { pageFile, pageHeaders } from "../page/page-files.ts";
import { isOwnPage } from "./guards.ts";

/** Answers `app://ribband/…` with the files of the built page, and nothing else. */
export function appProtocol(folder: string): (request: Request) => Promise<Response> {
  const refuse = (status: number) => new Response(null, { status, headers: pageHeaders });
  return async (request) => {
    if (!isOwnPage(request.url)) return refuse(403);
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(405);
    const file = await pageFile(folder, new URL(request.url).pathname);
    if (!file) return refuse(404);
    return new Response(request.method === "HEAD" ? null : file.bytes, { headers: file.headers });
  };
}
