import { Trash2 } from "lucide-react";
import { type ComponentType, useMemo } from "react";
import { Button } from "react-aria-components";
import { z } from "zod";
import { entriesOf } from "../../../../core/project/allowed.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { useDesk } from "../../../desk.ts";
import { type FigurePath, valueAt } from "../../../document/figure-path.ts";
import { IconButton } from "../../../parts/icon-button.tsx";
import { headed, zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { sheetState } from "../sheets/sheet-state.ts";
import { FeatureName } from "./feature-name.tsx";
import styles from "./figures.module.css";
import { choiceName } from "./labels.ts";
import { nextTread, startingFeature, startingFitting } from "./starting.ts";

export interface Shown {
  readonly schema: z.core.$ZodType;
  readonly value: unknown;
  readonly path: FigurePath;
  /** What the figure belongs to, for the history: "ledge", "outline". */
  readonly of: string;
}

/** A list of parts: each with its figures, to be taken out, and below what may be added. */
export function ListOf(props: Shown & { readonly schema: z.ZodArray; readonly each: ComponentType<Shown> }) {
  const { schema, value, path, of, each } = props;
  const { project } = useDesk();
  const entries = value as readonly unknown[];
  const { least, most } = entriesOf(schema);
  const change = (step: string, recipe: (list: unknown[]) => void) =>
    project.edit(step, (draft) => recipe(valueAt(draft, path) as unknown[]));
  const add = (name: string, make: Adder["make"]) => {
    const made = make(project.state.getState().project.shell, entries);
    const edited = change(words.steps.add(name), (list) => list.push(made));
    const id = idOf(made);
    if (edited.ok && id !== null) sheetState.setState(isFeature(path) ? { feature: id } : { fitting: id });
  };
  const adders = addersFor(path);
  const short = isShort(schema.element);
  return (
    <>
      <ul className={styles.list}>
        {entries.map((entry, i) => {
          const called = entryName(entry, path, i, of);
          return (
            <li
              key={keyOf(entry, path, i)}
              className={styles.entry}
              data-short={short || undefined}
              data-entry={idOf(entry) ?? undefined}
            >
              <div className={styles.entryHead}>
                {isFeature(path) ? <FeatureName id={idOf(entry) ?? called} /> : <span>{headed(called)}</span>}
                {entries.length > least && (
                  <IconButton
                    label={words.drawing.remove(called)}
                    onPress={() => change(words.steps.remove(called), (list) => list.splice(i, 1))}
                  >
                    <Trash2 />
                  </IconButton>
                )}
              </div>
              <Entry each={each} schema={schema.element} value={entry} path={path} index={i} of={called} />
            </li>
          );
        })}
      </ul>
      {entries.length < most && adders.length > 0 && (
        <div className={styles.adders}>
          {adders.map(({ name, make }) => (
            <Button key={name} className={styles.add} onPress={() => add(name, make)}>
              {words.drawing.add} {name}
            </Button>
          ))}
        </div>
      )}
    </>
  );
}

function Entry(props: Shown & { readonly each: ComponentType<Shown>; readonly index: number }) {
  const { each: Each, schema, value, path, index, of } = props;
  const own = useMemo(() => [...path, index], [path, index]);
  return <Each schema={schema} value={value} path={own} of={of} />;
}

/** Entries of two figures stand in one line. */
function isShort(schema: z.core.$ZodType): boolean {
  if (!(schema instanceof z.ZodObject)) return false;
  const members = Object.values(schema.shape);
  return members.length === 2 && members.every((member) => member instanceof z.ZodNumber);
}

const isFeature = (path: FigurePath): boolean => path[path.length - 1] === "features";

const idOf = (entry: unknown): string | null =>
  typeof entry === "object" && entry !== null && "id" in entry && typeof entry.id === "string"
    ? entry.id
    : null;

/** By its name; but by its place where it may be given another one, so that the field of the name stays the same. */
const keyOf = (entry: unknown, path: FigurePath, i: number): string =>
  isFeature(path) ? `${i}` : (idOf(entry) ?? `${i}`);

const singular: Readonly<Record<string, string>> = {
  stations: "depth",
  treads: "tread",
  pairs: "radius",
  points: "point",
  segments: "segment",
};

function entryName(entry: unknown, path: FigurePath, i: number, of: string): string {
  const id = idOf(entry);
  if (id !== null) return zoneName(id);
  const key = String(path[path.length - 1]);
  const called = `${singular[key] ?? key} ${i + 1}`;
  return key === "treads" ? `${of}, ${called}` : called;
}

interface Adder {
  readonly name: string;
  make(shell: ShellSpec, list: readonly unknown[]): unknown;
}

function addersFor(path: FigurePath): readonly Adder[] {
  switch (path[path.length - 1]) {
    case "features":
      return (["steps", "ledge", "bench", "seat"] as const).map((kind) => ({
        name: choiceName(kind),
        make: (shell) => startingFeature(kind, shell),
      }));
    case "fittings":
      return (["skimmer", "return", "light", "suction"] as const).map((kind) => ({
        name: choiceName(kind),
        make: (shell) => startingFitting(kind, shell),
      }));
    case "treads":
      return [{ name: "tread", make: (_, list) => nextTread(list[list.length - 1] as never) }];
    case "stations":
      return [{ name: "depth", make: (_, list) => nextStation(list as { at: number; depth: number }[]) }];
    case "pairs":
      return [
        { name: "radius", make: (shell) => ({ between: ["wall", "floor"], radius: shell.radii.cove }) },
      ];
    default:
      return [];
  }
}

/** Half a metre further on, at the same depth. */
function nextStation(list: readonly { at: number; depth: number }[]) {
  const last = list[list.length - 1];
  return { at: last.at + 500, depth: last.depth };
}
