import { type ReactNode, useCallback, useState } from "react";
import type { Host, OpenedFile, WorkingState } from "../document/host/host.ts";
import { Question } from "../parts/question.tsx";
import { words } from "../words.ts";

interface Left {
  readonly file: OpenedFile;
  readonly working: WorkingState;
}

/**
 * Opens files, and asks first when a window that is gone left unsaved work on the very file: it must not be overlooked
 * because the file was named at the start, or because the page was loaded again.
 */
export function useLeftWork(
  host: Host,
  open: (from: OpenedFile | WorkingState) => void,
  onTrouble: (error: unknown) => void,
): { openFile(file: OpenedFile): void; question: ReactNode } {
  const [left, setLeft] = useState<Left | null>(null);
  const openFile = useCallback(
    (file: OpenedFile) => {
      const find = async () => {
        const states = file.handle === null ? [] : await host.autosave.list();
        const working = states.find(({ handle }) => handle === file.handle);
        if (working) setLeft({ file, working });
        else open(file);
      };
      find().catch(onTrouble);
    },
    [host, open, onTrouble],
  );
  if (!left) return { openFile, question: null };

  const take = (from: OpenedFile | WorkingState) => {
    setLeft(null);
    open(from);
  };
  const when = new Date(left.working.savedAt).toLocaleString();
  const question = (
    <Question
      title={words.file.left(left.file.name)}
      onLeave={() => take(left.file)}
      answers={[
        { name: words.file.openSaved, onPress: () => take(left.file) },
        { name: words.file.takeLeft, onPress: () => take(left.working), first: true },
      ]}
    >
      {words.file.leftWhy(when)}
    </Question>
  );
  return { openFile, question };
}
