import { useCallback, useEffect, useState } from "react";
import { printProject } from "../../core/project/print.ts";
import { useDesk, useProject } from "../desk.ts";
import type { Host, OpenedFile, WorkingState } from "../document/host/host.ts";
import { fileNameFor } from "../document/project-file.ts";
import { wouldBeLost } from "../document/project-store.ts";
import { lookFrom, session } from "../document/session.ts";
import { Question } from "../parts/question.tsx";
import { words } from "../words.ts";
import { onCommand } from "./commands.ts";
import { takeMade } from "./made.ts";

type Asked = { readonly kind: "changed" } | { readonly kind: "leave"; readonly go: (leave: boolean) => void };

/** What is done with the project's file: by the menu, the keyboard or the buttons; and the questions that come with it. */
export function FileCommands(props: {
  readonly host: Host;
  readonly onOpen: (file: OpenedFile) => void;
  /** Opens work that is in no file yet. */
  readonly onMade: (working: WorkingState) => void;
  readonly onTrouble: (error: unknown) => void;
  /** Takes the project off the desk. */
  readonly onLeave: () => void;
}) {
  const { host, onOpen, onMade, onTrouble, onLeave } = props;
  const { project, file } = useDesk();
  const [asked, setAsked] = useState<Asked | null>(null);
  const name = useProject((s) => s.project.name);
  const changed = useProject(wouldBeLost);

  useEffect(() => host.setTitle({ name, changed }), [host, name, changed]);

  const save = useCallback(
    async (how: "save" | "save-as" | "over"): Promise<boolean> => {
      try {
        const saved = await (how === "save-as" ? file.saveAs() : file.save(how === "over"));
        if (saved === "changed-on-disk") setAsked({ kind: "changed" });
        return saved === "saved";
      } catch (error) {
        onTrouble(error);
        return false;
      }
    },
    [file, onTrouble],
  );

  /** True when nothing would be lost, or the person says so. */
  const mayLeave = useCallback(
    () => (changed ? new Promise<boolean>((go) => setAsked({ kind: "leave", go })) : Promise.resolve(true)),
    [changed],
  );

  useEffect(() => host.onCloseAsked(mayLeave), [host, mayLeave]);
  useEffect(
    () =>
      host.onOpenFile((opening) => {
        opening.then(async (file) => (await mayLeave()) && onOpen(file)).catch(onTrouble);
      }),
    [host, mayLeave, onOpen, onTrouble],
  );
  useEffect(
    () =>
      takeMade(async (made) => {
        if (!(await mayLeave())) return false;
        const working: WorkingState = {
          id: crypto.randomUUID(),
          name: fileNameFor(made.name),
          handle: null,
          savedAt: new Date().toISOString(),
          text: printProject(made),
          stamp: null,
        };
        try {
          // Kept aside at once: it is work, and in no file yet.
          await host.autosave.put(working);
          onMade(working);
          return true;
        } catch (error) {
          onTrouble(error);
          return false;
        }
      }),
    [host, mayLeave, onMade, onTrouble],
  );
  useEffect(
    () =>
      onCommand(host, async (command) => {
        if (command === "save" || command === "save-as") await save(command);
        else if (command === "undo") project.undo();
        else if (command === "redo") project.redo();
        else if (command === "fit") lookFrom(session.getState().view.name);
        else if (command === "new") {
          if (await mayLeave()) onLeave();
        } else if (command === "open") {
          try {
            // The dialog must come straight from the click, so the file is chosen first and the question asked then.
            const opened = await host.open();
            if (opened && (await mayLeave())) onOpen(opened);
          } catch (error) {
            onTrouble(error);
          }
        }
      }),
    [host, project, save, mayLeave, onOpen, onLeave, onTrouble],
  );

  if (!asked) return null;
  const close = () => setAsked(null);
  const again = (how: "over" | "save-as") => {
    close();
    void save(how);
  };
  if (asked.kind === "changed") {
    return (
      <Question
        title={words.file.changedOnDisk}
        onLeave={close}
        answers={[
          { name: words.file.notNow, onPress: close },
          { name: words.file.writeOver, onPress: () => again("over") },
          { name: words.file.saveElsewhere, onPress: () => again("save-as"), first: true },
        ]}
      >
        {words.file.changedOnDiskWhy}
      </Question>
    );
  }
  const answer = (leave: boolean) => {
    close();
    asked.go(leave);
  };
  return (
    <Question
      title={words.file.unsaved(name)}
      onLeave={() => answer(false)}
      answers={[
        { name: words.file.stay, onPress: () => answer(false) },
        {
          name: words.file.discard,
          onPress: () => file.drop().then(() => answer(true), onTrouble),
        },
        { name: words.file.save, onPress: () => save("save").then(answer), first: true },
      ]}
    >
      {words.file.unsavedWhy}
    </Question>
  );
}
