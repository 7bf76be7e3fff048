/** What one meets with no project open. */
export const start = {
  title: "What is on the drawing board?",
  demos: "Start from a demo",
  demosHint: "Four pools of our own invention, each laid up and ready to cut.",
  open: "Open a project",
  new: "Start from a plain shell",
  recent: "Lately open",
  left: "Not saved last time",
  leftHint: "The window was closed before this was saved.",
  take: "Go on with it",
  drop: "Throw away",
  savedAt: (when: string) => `last changed ${when}`,
} as const;
