import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { z } from "zod";
import { loopbackEntry, machineChannels, type Outcome } from "../../renderer/document/host/contract.ts";
import { type Answer, answering } from "../channels/answer.ts";
import type { Machine } from "../channels/machine.ts";
import { pageFile, pageHeaders } from "../page/page-files.ts";
import { isOwnHost, isOwnOrigin, keyOf, sameSecret, secret } from "./access.ts";
import { tickets } from "./tickets.ts";

const longestBody = 64 * 2 ** 20;

/** What a second `npm start` asks of the first: an address that opens a file. Paths enter by this door only. */
export const secondStart = {
  ask: z.strictObject({ file: z.string().min(1).nullable() }),
  answer: z.strictObject({ address: z.string() }),
};

export interface Loopback {
  readonly port: number;
  /** Proves a second start; a page never learns it. */
  readonly starterKey: string;
  /** A fresh address, good for one use, that opens a file. */
  address(file: string | null): string;
  close(): Promise<void>;
}

/**
 * The same app in a browser: the built page, and the machine's channels as `POST /host/<channel>`, on 127.0.0.1 only.
 * Rejects with EADDRINUSE when the port is taken.
 * @param page the folder of the built page
 * @param port 0 takes any free one
 */
export async function serve(options: {
  page: string;
  machine: Machine;
  port: number;
  report: (error: unknown) => void;
}): Promise<Loopback> {
  const { page, machine, report } = options;
  const key = secret();
  const starterKey = secret();
  const issued = tickets();
  const address = (file: string | null) => {
    const ticket = issued.issue(file === null ? null : machine.known.know(file));
    return `http://127.0.0.1:${port}/#ticket=${ticket}`;
  };

  const doors: Record<string, { key: string | null; answer: Answer }> = {
    enter: {
      key: null,
      answer: answering(
        { enter: loopbackEntry },
        {
          async enter({ ticket }) {
            const taken = issued.take(ticket);
            return taken ? { key, named: taken.named } : null;
          },
        },
        report,
      ),
    },
    start: {
      key: starterKey,
      answer: answering(
        { start: secondStart },
        { start: async ({ file }) => ({ address: address(file) }) },
        report,
      ),
    },
  };
  const pageDoor = { key, answer: answering(machineChannels, machine.handlers, report) };

  const respond = async (request: IncomingMessage, response: ServerResponse) => {
    if (!isOwnHost(request.headers, port)) return refuse(response, 403, "not this server's name");
    const [pathname] = (request.url ?? "/").split(/[?#]/);
    const channel = /^\/host\/([A-Za-z]+)$/.exec(pathname)?.[1];
    if (!channel) return givePage(page, pathname, request, response);

    const door = Object.hasOwn(doors, channel) ? doors[channel] : pageDoor;
    const { headers, method } = request;
    if (method !== "POST") return refuse(response, 405, "questions are POSTs");
    if (!isOwnOrigin(headers, port)) return refuse(response, 403, "not a page of this server");
    if (!/^application\/json\b/.test(headers["content-type"] ?? ""))
      return refuse(response, 415, "JSON is wanted");
    if (door.key !== null && !sameSecret(keyOf(headers), door.key)) return refuse(response, 401, "no key");
    const body = await bodyOf(request);
    if (body === undefined) return refuse(response, 413, "too long");
    const asked = jsonOf(body);
    if (!asked) return refuse(response, 400, "not JSON");
    giveOutcome(response, await door.answer(channel, asked.question));
  };

  const server = createServer((request, response) => {
    respond(request, response).catch((error) => {
      report(error);
      if (response.headersSent) response.destroy();
      else refuse(response, 500, "failed");
    });
  });
  await listen(server, options.port);
  const { port } = server.address() as AddressInfo;
  return { port, starterKey, address, close: () => close(server) };
}

async function givePage(page: string, pathname: string, request: IncomingMessage, response: ServerResponse) {
  if (request.method !== "GET" && request.method !== "HEAD") return refuse(response, 405, "files are read");
  const file = await pageFile(page, pathname);
  if (!file) return refuse(response, 404, "no such file");
  response.writeHead(200, {
    ...file.headers,
    "Cache-Control": "no-cache",
    "Content-Length": file.bytes.length,
  });
  response.end(request.method === "HEAD" ? undefined : file.bytes);
}

function giveOutcome(response: ServerResponse, outcome: Outcome) {
  response.writeHead(200, {
    ...pageHeaders,
    "Content-Type": "application/json",
    "Cache-Control": "no-store",
  });
  response.end(JSON.stringify(outcome));
}

function refuse(response: ServerResponse, status: number, why: string) {
  response.writeHead(status, {
    ...pageHeaders,
    "Content-Type": "text/plain; charset=utf-8",
    Connection: "close",
  });
  response.end(`${why}\n`);
}

/** undefined when the body is longer than any question; the rest of it is not read. */
async function bodyOf(request: IncomingMessage): Promise<string | undefined> {
  if (Number(request.headers["content-length"] ?? 0) > longestBody) return undefined;
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > longestBody) return undefined;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString("utf8");
}

/** A question travels as `{ "question": … }`, since "nothing" is no JSON. */
function jsonOf(body: string): { question?: unknown } | undefined {
  try {
    const value: unknown = JSON.parse(body);
    return typeof value === "object" && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}

function listen(server: Server, port: number): Promise<void> {
  return new Promise((done, fail) => {
    server.once("error", fail);
    server.listen({ host: "127.0.0.1", port, exclusive: true }, done);
  });
}

function close(server: Server): Promise<void> {
  return new Promise((done) => {
    server.close(() => done());
    server.closeAllConnections();
  });
}
