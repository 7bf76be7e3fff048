import { useCallback, useEffect, useState } from "react";
import { Toaster, toast } from "sonner";
import { parseProject } from "../core/project/parse.ts";
import type { Project } from "../core/project/schema.ts";
import { type Desk, DeskContext, openDesk, type Source, useSession } from "./desk.ts";
import type { Host } from "./document/host/host.ts";
import { FileCommands } from "./frame/file-commands.tsx";
import { Frame } from "./frame/frame.tsx";
import { useLeftWork } from "./frame/left-work.tsx";
import { onUnexpected } from "./frame/unexpected.ts";
import { useKeptSettings } from "./frame/use-kept-settings.ts";
import { themeOf } from "./look/theme.ts";
import { tell } from "./parts/tell.ts";
import { Start } from "./places/start/start.tsx";
import { words } from "./words.ts";

/** Notices stand clear of the buttons at the foot of the scene. */
const NOTICES_UP = { bottom: 72 };

const reasonOf = (error: unknown) => (error instanceof Error ? error.message : String(error));

/** The window: the start page until a project is open, then the factory. */
export function App({ host }: { readonly host: Host }) {
  const [desk, setDesk] = useState<Desk | null>(null);
  const settled = useKeptSettings(host);
  const theme = useSession(themeOf);
  useEffect(() => onUnexpected(window, (error) => tell(words.fault(reasonOf(error)))), []);

  const open = useCallback(
    (project: Project, from: Source) => {
      // A demo, a new model or work left behind is in no file: the one that was open before it is not to come back.
      if (!from?.handle) host.forgetOpen();
      setDesk(openDesk(host, project, from, (sentence) => tell(words.file.notKept(sentence))));
    },
    [host],
  );
  useEffect(() => () => desk?.close(), [desk]);

  const openText = useCallback(
    (from: Exclude<Source, null>) => {
      const parsed = parseProject(from.text);
      if (parsed.ok) open(parsed.project, from);
      else
        toast.error(words.file.cannotOpen(from.name), {
          description: parsed.problems.map((problem) => problem.sentence).join("\n"),
          duration: Number.POSITIVE_INFINITY,
          closeButton: true,
        });
    },
    [open],
  );
  const { openFile, question } = useLeftWork(host, openText, tell);
  useEffect(() => {
    host.opening().then((file) => file && openFile(file), tell);
  }, [host, openFile]);
  const isEmpty = desk === null;
  useEffect(() => {
    if (isEmpty) host.setTitle({ name: null, changed: false });
  }, [host, isEmpty]);
  useEffect(() => {
    // With a project on the desk FileCommands takes what comes, for it knows what would be lost.
    return isEmpty ? host.onOpenFile((opening) => opening.then(openFile, tell)) : undefined;
  }, [host, openFile, isEmpty]);

  return (
    <>
      {settled && desk && (
        <DeskContext value={desk}>
          <Frame />
          <FileCommands
            host={host}
            onOpen={openFile}
            onMade={openText}
            onTrouble={tell}
            onLeave={() => {
              host.forgetOpen();
              setDesk(null);
            }}
          />
        </DeskContext>
      )}
      {settled && !desk && <Start host={host} onOpen={open} onOpenText={openText} onTrouble={tell} />}
      {question}
      <Toaster
        theme={theme === "slate" ? "dark" : "light"}
        position="bottom-center"
        offset={NOTICES_UP}
        mobileOffset={NOTICES_UP}
        toastOptions={{ className: "notice" }}
      />
    </>
  );
}
