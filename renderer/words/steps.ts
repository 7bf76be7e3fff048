/** Names of what was done, for undo and redo. */
export const steps = {
  slide: (what: string) => `Slide ${what}`,
  change: (what: string) => `Change ${what}`,
  add: (what: string) => `Add ${what}`,
  remove: (what: string) => `Remove ${what}`,
  lay: (what: string) => `Lay ${what}`,
  delete: (what: string) => `Delete ${what}`,
  duplicate: (what: string) => `Duplicate ${what}`,
  mirror: (what: string) => `Mirror ${what}`,
  copy: (what: string) => `Copy ${what}`,
  mend: (what: string) => `Mend ${what}`,
  rename: (what: string, name: string) => `Rename ${what} to ${name}`,
} as const;
