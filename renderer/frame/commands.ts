import type { Host, MenuCommand } from "../document/host/host.ts";

type Listener = (command: MenuCommand) => void;

const listeners = new Set<Listener>();

/** Gives a command from a button of the window itself, as the desktop's menu would. */
export function giveCommand(command: MenuCommand): void {
  for (const listener of listeners) listener(command);
}

/** Commands by the desktop's menu, by the window's own buttons and, where no menu has taken them, by the keyboard. */
export function onCommand(host: Host, listener: Listener): () => void {
  const leaveMenu = host.onCommand((command) => {
    const inText = textCommands[command];
    // The desktop's menu may take a key before the text gets it, so the text is given it back.
    if (inText !== undefined && isTyping(document.activeElement)) document.execCommand(inText);
    else listener(command);
  });
  const onKey = (event: KeyboardEvent) => {
    const command = event.defaultPrevented ? null : commandOf(event);
    if (!command) return;
    event.preventDefault();
    listener(command);
  };
  addEventListener("keydown", onKey);
  listeners.add(listener);
  return () => {
    leaveMenu();
    removeEventListener("keydown", onKey);
    listeners.delete(listener);
  };
}

/** Commands that belong to a text while it is typed, by the browser's own names. */
const textCommands: Partial<Record<MenuCommand, string>> = {
  undo: "undo",
  redo: "redo",
  delete: "delete",
  "select-all": "selectAll",
};

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement && target.dataset.typing !== undefined;
}

/** The command of a key; in a text that is being typed undo and redo are the text's own. */
function commandOf(event: KeyboardEvent): MenuCommand | null {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return null;
  const typing = isTyping(event.target);
  switch (event.key.toLowerCase()) {
    case "s":
      return event.shiftKey ? "save-as" : "save";
    case "o":
      return "open";
    case "z":
      return typing ? null : event.shiftKey ? "redo" : "undo";
    case "y":
      return typing ? null : "redo";
    default:
      return null;
  }
}
