import { resolve } from "node:path";

/**
 * The project file that a command line names, as an absolute path; undefined when it names none. Options, and the folder
 * of the app that a development run puts first, are no files.
 * @param args without the program itself
 * @param folder what a relative path counts from
 */
export function namedFile(args: readonly string[], folder: string): string | undefined {
  const named = args.filter((arg) => !arg.startsWith("-") && arg.toLowerCase().endsWith(".json")).at(-1);
  return named === undefined ? undefined : resolve(folder, named);
}
