/**
 * A mirror of the sources in which the layer check can read every import. Its parser gives up at JSX, so a .tsx file is
 * mirrored by the imports in it and nothing else; all other files as they are.
 */
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseSync } from "@swc/core";

/**
 * @template T
 * @param {string} root
 * @param {readonly string[]} folders below `root`
 * @param {(mirror: string) => Promise<T>} work is given the mirror's root, which is gone afterwards
 * @returns {Promise<T>}
 */
export async function inMirror(root, folders, work) {
  const mirror = mkdtempSync(join(tmpdir(), "ribband-imports-"));
  try {
    cpSync(join(root, "package.json"), join(mirror, "package.json"));
    symlinkSync(join(root, "node_modules"), join(mirror, "node_modules"), "junction");
    for (const folder of folders.filter((folder) => existsSync(join(root, folder)))) {
      cpSync(join(root, folder), join(mirror, folder), { recursive: true });
      for (const entry of readdirSync(join(mirror, folder), { recursive: true, withFileTypes: true })) {
        const path = join(entry.parentPath, entry.name);
        if (entry.isFile() && path.endsWith(".tsx"))
          writeFileSync(path, importsOf(readFileSync(path, "utf8")));
      }
    }
    return await work(mirror);
  } finally {
    rmSync(mirror, { recursive: true, force: true });
  }
}

/**
 * The imports of a file, of values and of types, re-exports and late imports included, as a text without JSX.
 * @param {string} text
 */
export function importsOf(text) {
  const lines = new Set();
  const { body } = parseSync(text, { syntax: "typescript", tsx: true });
  for (const item of body) {
    if (item.type === "ImportDeclaration") lines.add(line(item.typeOnly, item.source.value));
    if (item.type === "ExportAllDeclaration") lines.add(line(false, item.source.value));
    if (item.type === "ExportNamedDeclaration" && item.source) {
      lines.add(line("typeOnly" in item && item.typeOnly === true, item.source.value));
    }
  }
  for (const source of lateImports(body)) lines.add(`import(${JSON.stringify(source)});`);
  return `${[...lines].join("\n")}\nexport {};\n`;
}

/**
 * @param {boolean} typeOnly
 * @param {string} source
 */
function line(typeOnly, source) {
  return typeOnly ? `import type {} from ${JSON.stringify(source)};` : `import ${JSON.stringify(source)};`;
}

/**
 * @param {unknown} node any part of swc's tree
 * @returns {string[]}
 */
function lateImports(node) {
  if (typeof node !== "object" || node === null) return [];
  const inner = Object.values(node).flatMap(lateImports);
  const call =
    /** @type {{ type?: string, callee?: { type: string }, arguments?: { expression: { value?: unknown } }[] }} */ (
      node
    );
  if (call.type !== "CallExpression" || call.callee?.type !== "Import") return inner;
  const source = call.arguments?.[0]?.expression.value;
  return typeof source === "string" ? [source, ...inner] : inner;
}
