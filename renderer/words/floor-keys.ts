/** The help sheet of the lay-up floor: every key and what it does. */
export const floorKeys = {
  title: "Keys of the lay-up floor",
  close: "Close",
  groups: [
    {
      title: "Tools",
      keys: [
        ["C", "choose"],
        ["B", "band on a transition"],
        ["F", "free band"],
        ["R", "rib, row of ribs"],
        ["G", "gussets"],
        ["P", "pad"],
        ["S", "stiffener"],
        ["A", "lay up all by the house rules"],
        ["Escape", "put the tool down, let go of what is chosen"],
      ],
    },
    {
      title: "Laying without a pointer",
      keys: [
        ["Enter", "with a tool in hand: where, by name"],
        ["Up, Down", "in that list: see the next place"],
        ["Enter", "in that list: lay it there"],
      ],
    },
    {
      title: "What is chosen",
      keys: [
        ["Ctrl A", "choose all"],
        ["Ctrl D", "duplicate"],
        ["M", "mirror about the centre line"],
        ["Delete", "delete"],
        ["H", "hide, show again"],
        ["L", "lock, unlock"],
        ["Ctrl Z", "undo"],
        ["Ctrl Shift Z", "redo"],
      ],
    },
    {
      title: "Edges, ends and points",
      keys: [
        ["Tab", "to the next handle on the shell"],
        ["Arrows", "move it by a step; with Shift ten"],
        ["Alt", "a tenth of a step, and no catching"],
      ],
    },
    {
      title: "On the tape",
      keys: [
        ["Tab", "onto the tape"],
        ["Arrows", "move the cross that reads it; with Shift ten steps"],
        ["Enter", "choose what is under the cross; with a tool in hand, lay what it offers"],
        ["Shift Enter", "begin a row of ribs or a stretch of band; Enter ends it"],
        [", .", "to the zone before, to the next"],
        ["Alt arrows", "slide the chosen rib, row or part of a band, widen the chosen band"],
        ["+ - 0", "nearer, further off, the whole tape"],
      ],
    },
    {
      title: "With the pointer",
      keys: [
        ["Shift click", "choose one more"],
        ["Shift drag", "choose all in a box"],
        ["Alt drag", "turn the shell with a tool in hand"],
      ],
    },
  ],
} as const;
