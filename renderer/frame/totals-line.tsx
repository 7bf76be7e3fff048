import { FolderOpen, LayoutGrid, Redo2, Save, Undo2 } from "lucide-react";
import { Button } from "react-aria-components";
import { useShallow } from "zustand/react/shallow";
import { useDesk, useProject, useResults, useSession } from "../desk.ts";
import { isSaved } from "../document/project-store.ts";
import { session } from "../document/session.ts";
import { IconButton } from "../parts/icon-button.tsx";
import { words } from "../words.ts";
import { faultsOf, notesOf, type Told } from "../worker/to-look-at.ts";
import { giveCommand } from "./commands.ts";
import { totalsOf } from "./totals.ts";
import styles from "./totals-line.module.css";

/** The line on top: whose shell it is, the steps back and forward, the four totals and how much there is to look at. */
export function TotalsLine() {
  return (
    <header className={styles.line}>
      <ProjectName />
      <FileButtons />
      <Steps />
      <Figures />
    </header>
  );
}

function ProjectName() {
  const name = useProject((s) => s.project.name);
  const saved = useProject(isSaved);
  return (
    <div className={styles.name}>
      <h1>{name}</h1>
      <span>{saved ? words.file.saved : words.file.changed}</span>
    </div>
  );
}

function FileButtons() {
  return (
    <div className={styles.steps}>
      <IconButton label={words.file.start} onPress={() => giveCommand("new")}>
        <LayoutGrid />
      </IconButton>
      <IconButton label={words.file.open} onPress={() => giveCommand("open")}>
        <FolderOpen />
      </IconButton>
      <IconButton label={words.file.save} onPress={() => giveCommand("save")}>
        <Save />
      </IconButton>
    </div>
  );
}

function Steps() {
  const { project } = useDesk();
  const last = useProject((s) => s.history.done.at(-1)?.name);
  const next = useProject((s) => s.history.undone.at(-1)?.name);
  const { undoStep, redoStep, nothingToUndo, nothingToRedo } = words.history;
  return (
    <div className={styles.steps}>
      <IconButton
        label={last ? undoStep(last) : nothingToUndo}
        onPress={project.undo}
        isDisabled={last === undefined}
      >
        <Undo2 />
      </IconButton>
      <IconButton
        label={next ? redoStep(next) : nothingToRedo}
        onPress={project.redo}
        isDisabled={next === undefined}
      >
        <Redo2 />
      </IconButton>
    </div>
  );
}

/** Whether the kit at hand is that of an earlier state of the project. */
function useDeskIsAhead(): boolean {
  const project = useProject((s) => s.project);
  return useResults((r) => r.of !== null && r.of !== project);
}

function Figures() {
  const kit = useResults((r) => r.kit);
  const lengths = useSession((s) => s.lengths);
  const faults = useResults(useShallow(faultsOf));
  const notes = useResults(useShallow(notesOf));
  const totals = kit && totalsOf(kit, lengths);
  const stale = useDeskIsAhead();
  return (
    <dl className={styles.totals} aria-label={words.totals.label} data-figures="">
      {(["woven", "ribs", "pads", "glass"] as const).map((key) => (
        <div key={key}>
          <dt>{words.totals[key]}</dt>
          <dd data-total={key} data-stale={stale || undefined}>
            {totals ? totals[key] : "–"}
          </dd>
        </div>
      ))}
      <div className={styles.looks}>
        <dt className="for-readers">{words.card.look}</dt>
        {faults.count > 0 && (
          <dd className={styles.faults}>
            <Button onPress={() => goLook(faults)}>{words.totals.faults(faults.count)}</Button>
          </dd>
        )}
        {notes.count > 0 && (
          <dd>
            <Button onPress={() => goLook(notes)}>{words.totals.look(notes.count)}</Button>
          </dd>
        )}
        {faults.count + notes.count === 0 && <dd>{totals ? words.totals.look(0) : "–"}</dd>}
      </div>
    </dl>
  );
}

const goLook = ({ where }: Told) =>
  session.setState({ place: where, looksOpen: true, selected: [], tool: null });
