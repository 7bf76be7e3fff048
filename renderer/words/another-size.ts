/** The sheet on which another size of a model is asked for. */
export const another = {
  open: "Make another size of this model",
  title: (model: string) => `Another size of ${model}`,
  figures: { length: "length of the rim", width: "width of the rim", depth: "depth at the deepest" },
  name: "name of the new project",
  noOutline: "The outline cannot be built. Mend it first.",
  rule: "What changes with the size, and what stays",
  rules: [
    "The rim stretches along and across; its radii stay, of a rim of lines and arcs those of the corners between straights.",
    "The floor's stations keep their part of the length. The shallowest depth stays, the deepest becomes the one asked for, those between keep their share.",
    "Treads, ledges, benches and seats keep their sizes, as people do; fittings keep theirs. All keep their part of their side.",
    "Zones stay with what they lie on and keep their widths, pitches and margins.",
  ],
  same: "This is the size that it has. Change a figure to see what becomes of the lay-up.",
  becomes: "What becomes of the lay-up",
  trying: "Building and laying it up",
  cannot: "It cannot be built in this size",
  carried: (zones: number, adrift: number) =>
    adrift === 0
      ? `All ${zones} zones are carried along`
      : `${zones - adrift} of ${zones} zones are carried along, ${adrift} adrift`,
  look: (n: number) => (n === 1 ? "1 thing more to look at" : `${n} things more to look at`),
  notMended: "No single figure mends it. Change it by hand once the model is made, or leave it out.",
  leaveOut: "Leave it out",
  leftOut: "left out",
  settled: "Mended for this size",
  takeBack: "Take back",
  leave: "Leave it",
  take: "Make it",
} as const;
