/** Opening, saving and leaving a project, and the questions that come with it. */
export const file = {
  saved: "all saved",
  changed: "not saved yet",
  save: "Save",
  open: "Open",
  start: "Back to the start",
  stay: "Stay here",
  notNow: "Do not save now",
  discard: "Leave without saving",
  cannotOpen: (name: string) => `${name} cannot be opened`,
  written: (name: string) => `${name} is saved`,
  notKept: (why: string) => `The work since the last save could not be kept aside: ${why}`,
  unsaved: (name: string) => `Save the changes to ${name}?`,
  unsavedWhy: "What is not saved is lost when you leave.",
  changedOnDisk: "The file has changed meanwhile",
  changedOnDiskWhy:
    "Somebody else wrote to it since you opened it. Nothing was saved yet: save yours elsewhere, or write over theirs.",
  writeOver: "Write over it",
  saveElsewhere: "Save elsewhere",
  left: (name: string) => `There is unsaved work on ${name}`,
  leftWhy: (when: string) =>
    `Its window was gone before this was saved; it was last changed ${when}. What is not taken now stays on the start page.`,
  takeLeft: "Go on with it",
  openSaved: "Open what was saved",
} as const;
