/** The job card: what all places say of the shell and of zones. */
export const card = {
  shell: "The shell",
  area: "inner surface",
  toRim: "volume to the rim",
  toWater: "water",
  rim: "round the rim",
  adjusted: "Adjusted, so that it can be built",
  wrong: (n: number) => (n === 1 ? "One figure stands in the way" : `${n} figures stand in the way`),
  flawed: "Do not cut yet: the surface failed its self-check",
  measuring: "measuring",
  stale: (now: string) =>
    now === "–"
      ? "of the last shell that could be built"
      : "of the shell before the change; it is measured anew",
  instead: (asked: string, used: string, unit: string) => `${used} ${unit} instead of ${asked} ${unit}`,
  zones: (n: number) => (n === 1 ? "1 zone" : `${n} zones`),
  allZones: "All zones",
  adrift: "adrift",
  material: "material",
  plies: "plies",
  length: "length",
  onShell: "area of one ply on the shell",
  look: "To look at",
  label: "Job card",
} as const;
