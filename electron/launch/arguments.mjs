import { statSync } from "node:fs";
import { resolve } from "node:path";
import { LaunchError } from "./setup.mjs";

const usage = "npm start [-- [--browser] [FILE]]";

/**
 * What `npm start` was asked for.
 * @param {readonly string[]} args
 * @param {string} folder the person's own folder: a relative FILE counts from there
 * @returns {{ browser: boolean, file: string | null }} `file` is an absolute path
 * @throws {LaunchError} for a word that means nothing, more than one file, or a file that is not there
 */
export function readArguments(args, folder) {
  const options = args.filter((arg) => arg.startsWith("--"));
  const files = args.filter((arg) => !arg.startsWith("--"));
  const strange = options.find((option) => option !== "--browser");
  if (strange) throw new LaunchError(`There is no option ${strange}; the command is ${usage}.`);
  if (files.length > 1) {
    throw new LaunchError(`One project at a time: ${files.join(", ")} were given; the command is ${usage}.`);
  }
  const [file] = files;
  if (file === undefined) return { browser: options.length > 0, file: null };
  const path = resolve(folder, file);
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new LaunchError(`There is no file ${path}.`);
  if (!found.isFile())
    throw new LaunchError(`${path} is a folder; name a project file in it (*.ribband.json).`);
  return { browser: options.length > 0, file: path };
}
