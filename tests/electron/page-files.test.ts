import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { appProtocol } from "../../electron/desktop/app-protocol.ts";
import { pageFile, pageHeaders } from "../../electron/page/page-files.ts";
import { ownFolder } from "./own-folder.ts";

/** A built page, and around it what must not be given away. */
function builtPage() {
  const root = ownFolder();
  const page = join(root, "out/window");
  mkdirSync(join(page, "assets"), { recursive: true });
  mkdirSync(join(root, "out/window-2"));
  writeFileSync(join(root, "secret.json"), "secret");
  writeFileSync(join(root, "out/secret.json"), "secret");
  writeFileSync(join(root, "out/window-2/secret.json"), "secret");
  writeFileSync(join(page, "index.html"), "<!doctype html>");
  writeFileSync(join(page, "assets/main-B4.js"), "export {};");
  writeFileSync(join(page, "assets/solver.wasm"), "wasm");
  writeFileSync(join(page, "assets/a b ½.css"), "css");
  writeFileSync(join(page, "notes.md"), "of no use to a page");
  symlinkSync("../../secret.json", join(page, "link.json"));
  symlinkSync("..", join(page, "up"));
  return { root, page };
}

describe("the page's own files", () => {
  test.each([
    ["/", "text/html; charset=utf-8", "<!doctype html>"],
    ["/index.html", "text/html; charset=utf-8", "<!doctype html>"],
    ["/assets/main-B4.js", "text/javascript; charset=utf-8", "export {};"],
    ["/assets/solver.wasm", "application/wasm", "wasm"],
    ["/assets/a%20b%20%C2%BD.css", "text/css; charset=utf-8", "css"],
    ["//assets/main-B4.js", "text/javascript; charset=utf-8", "export {};"],
  ])("%s", async (pathname, type, text) => {
    const file = await pageFile(builtPage().page, pathname);
    expect(Buffer.from(file!.bytes).toString()).toBe(text);
    expect(file!.headers).toEqual({ ...pageHeaders, "Content-Type": type });
  });
});

const hostile = [
  "/../secret.json",
  "/../../secret.json",
  "/%2e%2e/secret.json",
  "/..%2fsecret.json",
  "/%2e%2e%2f%2e%2e%2fsecret.json",
  "/assets/../../secret.json",
  "/assets/%2e%2e/%2e%2e/%2e%2e/secret.json",
  "/..\\secret.json",
  "/..%5csecret.json",
  "/%5c..%5csecret.json",
  "/../window-2/secret.json",
  "/link.json",
  "/up/secret.json",
  "/C:/secret.json",
  "/index.html::$DATA",
  "/secret.json%00.html",
  "/%",
  "/%c0%ae%c0%ae/secret.json",
  "/notes.md",
  "/assets",
  "/assets/",
  "/index.html/x.js",
  "/..",
  "/.",
  `/${"a".repeat(5000)}.js`,
];

describe("nothing else is given away", () => {
  test.each(hostile)("%s", async (pathname) => {
    expect(await pageFile(builtPage().page, pathname)).toBeUndefined();
  });

  test("an absolute path", async () => {
    const { root, page } = builtPage();
    expect(await pageFile(page, join(root, "secret.json"))).toBeUndefined();
    expect(await pageFile(page, `/${encodeURIComponent(join(root, "secret.json"))}`)).toBeUndefined();
  });

  const pieces = [
    "..",
    ".",
    "/",
    "\\",
    "%2e",
    "%2f",
    "%5c",
    "secret.json",
    "window-2",
    "assets",
    "up",
    "%00",
    ":",
  ];
  test("any way that can be put together of steps up, slashes and names", async () => {
    const { page } = builtPage();
    const way = fc.array(fc.constantFrom(...pieces), { maxLength: 10 }).map((parts) => `/${parts.join("")}`);
    await fc.assert(
      fc.asyncProperty(way, async (pathname) => {
        const file = await pageFile(page, pathname);
        expect(file && Buffer.from(file.bytes).toString()).not.toBe("secret");
      }),
      { numRuns: 2000 },
    );
  });
});

describe("the content security policy", () => {
  const policy = new Map(
    pageHeaders["Content-Security-Policy"].split("; ").map((rule) => {
      const [name, ...sources] = rule.split(" ");
      return [name, sources];
    }),
  );

  test("scripts come from the page's folder and nowhere else; WebAssembly may be compiled", () => {
    expect(policy.get("script-src")).toEqual(["'self'", "'wasm-unsafe-eval'"]);
    expect(policy.get("worker-src")).toEqual(["'self'"]);
    expect(policy.get("connect-src")).toEqual(["'self'"]);
    expect(policy.get("default-src")).toEqual(["'none'"]);
  });

  test("no frames, no plug-ins, no forms, no other base", () => {
    for (const name of ["frame-ancestors", "form-action", "base-uri"])
      expect(policy.get(name)).toEqual(["'none'"]);
    for (const name of ["object-src", "frame-src"]) expect(policy.has(name)).toBe(false);
  });

  test("the page itself needs nothing inline", () => {
    const html = readFileSync(join(import.meta.dirname, "../../renderer/index.html"), "utf8");
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)/);
    expect(html).not.toMatch(/\son\w+=/);
    expect(html).not.toMatch(/https?:\/\//);
  });
});

describe("the app's protocol", () => {
  const ask = (address: string, method = "GET") =>
    appProtocol(builtPage().page)({ url: address, method } as Request);

  test("gives a page with the policy", async () => {
    const response = await ask("app://ribband/index.html");
    expect(response.status).toBe(200);
    expect(await response.text()).toBe("<!doctype html>");
    expect(response.headers.get("content-security-policy")).toBe(pageHeaders["Content-Security-Policy"]);
    expect((await ask("app://ribband/index.html", "HEAD")).status).toBe(200);
  });

  test.each([
    ["app://ribband/../secret.json", 404],
    ["app://ribband/%2e%2e%2fsecret.json", 404],
    ["app://ribband/..%2f..%2fsecret.json", 404],
    ["app://ribband//etc/passwd", 404],
    ["app://ribband.example/index.html", 403],
    ["app://ann@ribband/index.html", 403],
    ["app://other/index.html", 403],
    ["https://ribband/index.html", 403],
    ["file:///etc/passwd", 403],
  ])("%s is refused", async (address, status) => {
    const response = await ask(address);
    expect(response.status).toBe(status);
    expect(await response.text()).toBe("");
    expect(response.headers.get("content-security-policy")).toBeTruthy();
  });

  test("it is only for reading", async () => {
    for (const method of ["POST", "PUT", "DELETE", "OPTIONS"]) {
      expect((await ask("app://ribband/index.html", method)).status).toBe(405);
    }
  });
});
