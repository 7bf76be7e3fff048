/** The frame round every place: the way through, the line on top, what is under way. */
export const places = {
  "drawing-office": { name: "Drawing office", lines: ["Drawing", "office"] },
  "lay-up-floor": { name: "Lay-up floor", lines: ["Lay-up", "floor"] },
  "cutting-room": { name: "Cutting room", lines: ["Cutting", "room"] },
  showroom: { name: "Showroom", lines: ["Showroom"] },
} as const;

export const history = {
  undo: "Undo",
  redo: "Redo",
  undoStep: (step: string) => `Undo: ${step}`,
  redoStep: (step: string) => `Redo: ${step}`,
  nothingToUndo: "Nothing to undo",
  nothingToRedo: "Nothing to do again",
} as const;

export const totals = {
  label: "What one shell takes",
  woven: "woven",
  ribs: "strips",
  pads: "sheet",
  glass: "glass",
  faults: (n: number) => (n === 1 ? "1 fault" : `${n} faults`),
  look: (n: number) => (n === 0 ? "nothing to look at" : `${n} to look at`),
} as const;

export const stages = {
  shell: "Building the shell",
  lines: "Finding where its faces meet",
  layup: "Laying up",
  kit: "Cutting the kit",
  tape: "Unrolling the wall",
  measure: "Measuring",
} as const;

export const settings = {
  lengths: "Lengths in",
  lengthStyles: { mm: "mm", m: "m", in: "in", "ft-in": "ft in" },
  theme: "Paper or slate",
  themes: { system: "System", paper: "Paper", slate: "Slate" },
} as const;

export const borders = { card: "Width of the card", foot: "Height of the foot" } as const;
