/** How the shell is seen, and what is written over it. */
export const views = {
  label: "How the shell is seen",
  plugUp: "Plug-up",
  poolUp: "Pool-up",
  standing: "Which way up the shell stands",
  seeThrough: "See through",
  section: "Section",
  dimensions: "Dimensions",
  grid: "Grid and figure",
  from: "Look from",
  names: { corner: "Corner", plan: "Above", side: "Side", end: "End", below: "Below" },
  axes: { along: "Along", across: "Across", level: "Level" },
  sectionAt: "Place of the section",
  sectionHandle: "Drag to move the section",
  fit: "Fit",
} as const;

export const scene = {
  label: "The shell in three dimensions",
  empty: "The shell is being built",
  lastGood: "The last shell that could be built",
  /** Behind the depth: the floor's own figures are those before its radii. */
  depth: "after the radii",
  person: "1.8 m",
} as const;
