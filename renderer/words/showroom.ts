/** The showroom, in a buyer's words. */
export const showroom = {
  reinforcement: "Reinforcement",
  webs: (n: number) => (n === 1 ? "1 web" : `${n} webs`),
  nothing: "No reinforcement is laid up on this shell yet.",
  computing: "being worked out",
  wrong: "The shell cannot be built as its figures stand; this is the last one that could.",
  stale: "Figures in italics are of the pool before the last change; the new ones are being worked out.",
  wrongFirst: "The shell cannot be built as its figures stand, so there is none to see yet.",
  figuresTitle: "The pool in figures",
  caution:
    "Shown is where reinforcement lies and what it is commonly there for. It says nothing about strength; that is for the maker's engineer.",
  figures: {
    length: "length",
    width: "width",
    depth: "greatest depth, after the radii",
    water: "water",
    surface: "inner surface",
    layers: "woven layers where floor meets wall",
  },
  layers: {
    allRound: (n: number) => `${n} all round`,
    upTo: (least: number, most: number) => `${least} all round, up to ${most}`,
    inPlaces: (most: number) => `up to ${most} in places`,
    none: "none",
  },
  kinds: {
    bands: {
      name: "Woven bands",
      why: "Extra layers of woven glass cloth over the curves: where the floor meets the wall, and over the edges of steps and ledges. A shell flexes most there when it is lifted, carried and set; the cloth spreads the strain.",
    },
    ribs: {
      name: "Ribs",
      why: "Strips of light core, laminated over, up the outside of the walls. They are there to keep the walls from bowing while the pool stands empty, while it is filled and while the ground is put back round it.",
    },
    gussets: {
      name: "Gussets",
      why: "Upright webs in the corner underneath steps, benches and ledges. They carry the ledge to the wall behind it, so that it feels solid underfoot.",
    },
    pads: {
      name: "Pads",
      why: "Flat sheets of core on the underside of treads, benches and ledges: stiffness where people stand and sit.",
    },
    stiffeners: {
      name: "Coping stiffeners",
      why: "A strip of core under the coping along its straight edges. It is there to keep a straight edge straight while the pool is set and filled in round.",
    },
  },
  side: "Which side is seen",
  sides: { inside: "Inside", outside: "Outside" },
  turn: "Turn slowly",
  picture: "Save a picture",
} as const;
