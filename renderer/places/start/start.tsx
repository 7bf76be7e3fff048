import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import { defaultProject } from "../../../core/project/defaults.ts";
import { parseProject } from "../../../core/project/parse.ts";
import type { Project } from "../../../core/project/schema.ts";
import { type Demo, demos } from "../../document/demos.ts";
import type { Host, OpenedFile, RecentFile, WorkingState } from "../../document/host/host.ts";
import { words } from "../../words.ts";
import { RimSketch } from "./rim-sketch.tsx";
import styles from "./start.module.css";

interface Offer {
  readonly demo: Demo;
  readonly project: Project;
}

type OpenText = (from: OpenedFile | WorkingState) => void;

/** What one meets with no project open: work left behind, files, and the demos, each with its plan and a line about it. */
export function Start(props: {
  readonly host: Host;
  readonly onOpen: (project: Project, from: null) => void;
  readonly onOpenText: OpenText;
  readonly onTrouble: (error: unknown) => void;
}) {
  const { host, onOpen, onOpenText, onTrouble } = props;
  const offers = useLater<readonly Offer[]>([], () => Promise.all(demos.map(offerOf)), onTrouble);
  return (
    <main className={styles.page}>
      <div className={styles.board}>
        <p className={styles.mark}>{words.product}</p>
        <h1>{words.start.title}</h1>
        <LeftBehind host={host} onOpenText={onOpenText} onTrouble={onTrouble} />
        <div className={styles.ways}>
          <Button
            className={styles.way}
            onPress={() => host.open().then((file) => file && onOpenText(file), onTrouble)}
          >
            {words.start.open}
          </Button>
          <Button className={styles.way} onPress={() => onOpen(defaultProject(), null)}>
            {words.start.new}
          </Button>
        </div>
        <Recent host={host} onOpenText={onOpenText} onTrouble={onTrouble} />
        <section aria-labelledby="start-demos">
          <h2 id="start-demos">{words.start.demos}</h2>
          <p className={styles.hint}>{words.start.demosHint}</p>
          <ul className={styles.offers}>
            {offers.map(({ demo, project }) => (
              <li key={demo.id}>
                <Button className={styles.offer} onPress={() => onOpen(project, null)}>
                  <RimSketch shell={project.shell} />
                  <span className={styles.name}>{project.name}</span>
                  <span className={styles.notes}>{project.notes}</span>
                </Button>
              </li>
            ))}
          </ul>
        </section>
      </div>
    </main>
  );
}

interface Files {
  readonly host: Host;
  readonly onOpenText: OpenText;
  readonly onTrouble: (error: unknown) => void;
}

/** Work that a window left unsaved: to be gone on with or thrown away. */
function LeftBehind({ host, onOpenText, onTrouble }: Files) {
  const [dropped, setDropped] = useState<ReadonlySet<string>>(new Set());
  const all = useLater<readonly WorkingState[]>([], () => host.autosave.list(), onTrouble);
  const left = all.filter(({ id }) => !dropped.has(id));
  if (left.length === 0) return null;
  const drop = (id: string) =>
    host.autosave.drop(id).then(() => setDropped((before) => new Set([...before, id])), onTrouble);
  return (
    <section className={styles.left} aria-labelledby="start-left">
      <h2 id="start-left">{words.start.left}</h2>
      <p className={styles.hint}>{words.start.leftHint}</p>
      <ul>
        {left.map((working) => (
          <li key={working.id} className={styles.leftOne}>
            <span>
              <strong>{working.name}</strong>{" "}
              {words.start.savedAt(new Date(working.savedAt).toLocaleString())}
            </span>
            <Button className={styles.way} onPress={() => onOpenText(working)}>
              {words.start.take}
            </Button>
            <Button className={styles.way} onPress={() => drop(working.id)}>
              {words.start.drop}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Recent({ host, onOpenText, onTrouble }: Files) {
  const recent = useLater<readonly RecentFile[]>([], () => host.recent(), onTrouble);
  if (recent.length === 0) return null;
  return (
    <section aria-labelledby="start-recent" className={styles.recent}>
      <h2 id="start-recent">{words.start.recent}</h2>
      <ul>
        {recent.map(({ handle, name, folder }) => (
          <li key={handle}>
            <Button
              className={styles.file}
              onPress={() => host.openRecent(handle).then(onOpenText, onTrouble)}
            >
              <strong>{name}</strong> <span>{folder}</span>
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What a promise gives, once; trouble is told. */
function useLater<T>(before: T, ask: () => Promise<T>, onTrouble: (error: unknown) => void): T {
  const [value, setValue] = useState(before);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once, when the page comes up.
  useEffect(() => {
    let left = false;
    ask().then(
      (given) => !left && setValue(given),
      (error: unknown) => !left && onTrouble(error),
    );
    return () => {
      left = true;
    };
  }, []);
  return value;
}

async function offerOf(demo: Demo): Promise<Offer> {
  const parsed = parseProject(await demo.read());
  if (!parsed.ok) throw new Error(`${demo.id}: ${parsed.problems.map((each) => each.sentence).join(" ")}`);
  return { demo, project: parsed.project };
}
