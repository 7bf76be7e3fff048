import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import { parseProject } from "../../../core/project/parse.ts";
import type { Project } from "../../../core/project/schema.ts";
import { type Demo, demos } from "../../document/demos.ts";
import { words } from "../../words.ts";
import { RimSketch } from "./rim-sketch.tsx";
import styles from "./start.module.css";

interface Offer {
  readonly demo: Demo;
  readonly project: Project;
}

/** What one meets with no project open: the demos, each with its plan, its sizes and a line about it. */
export function Start({ onOpen }: { readonly onOpen: (project: Project) => void }) {
  const [offers, setOffers] = useState<readonly Offer[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let left = false;
    Promise.all(demos.map(offerOf)).then(
      (read) => !left && setOffers(read),
      (error: unknown) => !left && setProblem(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      left = true;
    };
  }, []);
  return (
    <main className={styles.page}>
      <div className={styles.board}>
        <p className={styles.mark}>{words.product}</p>
        <h1>{words.start.title}</h1>
        <section aria-labelledby="start-demos">
          <h2 id="start-demos">{words.start.demos}</h2>
          <p className={styles.hint}>{words.start.demosHint}</p>
          <ul className={styles.offers}>
            {offers.map(({ demo, project }) => (
              <li key={demo.id}>
                <Button className={styles.offer} onPress={() => onOpen(project)}>
                  <RimSketch shell={project.shell} />
                  <span className={styles.name}>{project.name}</span>
                  <span className={styles.notes}>{project.notes}</span>
                </Button>
              </li>
            ))}
          </ul>
          {problem && <p className={styles.problem}>{problem}</p>}
        </section>
      </div>
    </main>
  );
}

async function offerOf(demo: Demo): Promise<Offer> {
  const parsed = parseProject(await demo.read());
  if (!parsed.ok) throw new Error(`${demo.id}: ${parsed.problems.map((each) => each.sentence).join(" ")}`);
  return { demo, project: parsed.project };
}
