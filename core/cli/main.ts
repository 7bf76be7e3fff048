/**
 * `ribband measure|kit FILE`: the main job from the command line. Exit codes: 0 fine, 1 bad input (clear sentences on
 * stderr), 2 done with findings: a zone adrift, cloth that cannot be cut, a surface that failed its self-check. The commands themselves are loaded only when they are
 * asked for. The threads that a command calls start from this same file.
 */
import { isMainThread } from "node:worker_threads";
import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import about from "../../package.json" with { type: "json" };
import { BadInput, withoutFolder } from "./bad-input.ts";
import type { SheetOptions } from "./cutting-room.ts";
import type { KitOptions } from "./kit.ts";
import { ourFault } from "./our-fault.ts";
import { processTerminal, type Terminal } from "./terminal.ts";

const MOST_SHELLS = 1000;

const closing = `
Exit codes:
  0  fine
  1  bad input: each problem is told in a sentence on stderr, no file is written
  2  done, with findings: zones that find no place on the shell are adrift,
     cloth cannot be cut as it is listed, or the surface failed its self-check;
     with --out and without --lists-only, a piece fits no roll, sheet or bar;
     of a lot, stock is missing, or a project of it was left out

Ribband's figures do not replace a structural design: the maker's engineer
approves the laminate, the ribs and the lift.`;

/** What commander makes of the options of `kit`. */
interface KitFlags extends SheetOptions, Pick<KitOptions, "shells"> {
  readonly out?: string;
  readonly way?: "hand" | "table";
  readonly seconds?: number;
  readonly listsOnly?: true;
  readonly json?: true;
}

function commands(terminal: Terminal, ended: (code: number) => void): Command {
  const program = new Command("ribband")
    .description("Areas, cut pieces and strips for a one-piece fibreglass pool shell, from its project file.")
    .version(about.version, "-V, --version", "show the version")
    .helpOption("-h, --help", "show this help")
    .helpCommand("help [command]", "show the help of a command")
    .configureOutput({ writeOut: terminal.print, writeErr: terminal.say })
    .showHelpAfterError("(--help shows what can be asked for)")
    .exitOverride();
  program.addHelpText("after", closing);
  program
    .command("measure")
    .description("Measure a shell: areas of its faces, volumes, lengths of its transitions.")
    .argument("<file>", "project file (*.ribband.json)")
    .option("--json", "print one JSON object, figures unrounded, instead of tables")
    .action(async (file: string, options: { json?: boolean }) => {
      const { measureCommand } = await import("./measure.ts");
      ended(await measureCommand(file, { json: options.json === true }, terminal));
    });
  program
    .command("kit")
    .description("List what is cut: pieces of cloth, strips, gussets, pads, and the totals by material.")
    .argument("<file>", "project file (*.ribband.json) or lot file (*.ribband-lot.json)")
    .option("--shells <number>", `for how many shells of this model, 1 to ${MOST_SHELLS}`, readShells, 1)
    .option(
      "--out <folder>",
      "also write into a folder, new or old: lists, markers, templates, labels, plans",
      readFolder,
    )
    .option("--lists-only", "of these only the lists (CSV, XLSX, JSON)")
    .addOption(
      new Option("--way <way>", "how a project is cut: straight cuts (default) or on a table").choices([
        "hand",
        "table",
      ]),
    )
    .option(
      "--seconds <number>",
      "improve each material's plan for so long, instead of a fixed number of steps",
      readSeconds,
    )
    .addOption(
      new Option("--paper <name>", "what drawings are printed on").choices(["a4", "letter"]).default("a4"),
    )
    .addOption(
      new Option("--templates <paper>", "templates on one page at full size, or on tiles")
        .choices(["full", "a4", "letter"])
        .default("full"),
    )
    .addOption(
      new Option("--labels <sheet>", "sheets of labels: paper, and labels on each")
        .choices(["a4-14", "a4-24", "letter-10"])
        .default("a4-14"),
    )
    .option("--json", "print one JSON object, figures unrounded, instead of tables")
    .action(async (file: string, asked: KitFlags, command: Command) => {
      if (asked.out === undefined) refuseAnyOf(ofFolder, command);
      const [{ kitCommand }, { threadsOf }] = await Promise.all([import("./kit.ts"), import("./crew.ts")]);
      const { shells, out, way, seconds, json, listsOnly, paper, templates, labels } = asked;
      const sheets = listsOnly ? undefined : { paper, templates, labels };
      const options = { shells, out, way, seconds, json: json === true, sheets };
      ended(await kitCommand(file, options, terminal, threadsOf(new URL(import.meta.url))));
    });
  return program;
}

/** Options that say how a folder is filled, and nothing without one. */
const ofFolder = ["listsOnly", "paper", "templates", "labels"];

function refuseAnyOf(names: readonly string[], command: Command): void {
  const asked = command.options.filter(
    (option) =>
      names.includes(option.attributeName()) &&
      command.getOptionValueSource(option.attributeName()) === "cli",
  );
  if (asked.length > 0) throw withoutFolder(asked.map(({ long }) => `${long}`));
}

function readShells(text: string): number {
  const shells = Number(text);
  if (/^\d+$/.test(text) && shells >= 1 && shells <= MOST_SHELLS) return shells;
  throw new InvalidArgumentError(`A whole number from 1 to ${MOST_SHELLS} is wanted.`);
}

function readSeconds(text: string): number {
  const seconds = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && seconds > 0 && seconds <= 3600) return seconds;
  throw new InvalidArgumentError("A number of seconds above 0 is wanted, 3600 at the most.");
}

function readFolder(text: string): string {
  if (text.trim() !== "") return text;
  throw new InvalidArgumentError("The name of a folder is wanted.");
}

/** Runs one command line and gives its exit code. */
async function run(args: readonly string[], terminal: Terminal): Promise<number> {
  let code = 0;
  try {
    await commands(terminal, (ended) => {
      code = ended;
    }).parseAsync(args, { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 1;
    if (error instanceof BadInput) {
      for (const sentence of error.sentences) terminal.say(`${sentence}\n`);
      return 1;
    }
    terminal.say(`${ourFault(error)}\n`);
    if (process.env.RIBBAND_TRACE) terminal.say(`${error instanceof Error ? error.stack : ""}\n`);
    return 1;
  }
}

if (isMainThread) process.exitCode = await run(process.argv.slice(2), processTerminal());
else (await import("./serve-thread.ts")).serveThread();
