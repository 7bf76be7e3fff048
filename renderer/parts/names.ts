/** Names of the shell's parts as people say them. */

/** `steps/tread-2` → "steps, tread 2"; `coping/lip` → "coping, lip"; `wall` → "wall". */
export function faceName(id: string): string {
  return id
    .split("/")
    .map((word) => word.replaceAll("-", " "))
    .join(", ");
}

/** `ledge/top|ledge/riser` → "ledge, top to ledge, riser"; `foot` → "foot of the wall"; `#2` is told as the second place. */
export function lineName(id: string): string {
  if (id === "foot") return "foot of the wall";
  if (id === "rim") return "rim";
  const [faces, number] = id.split("#");
  const name = faces.split("|").map(faceName).join(" to ");
  return number ? `${name}, place ${number}` : name;
}

/** Ids that bands laid by hand have from the two faces of their line, and what a shop calls the place. */
const BANDS: readonly (readonly [RegExp, string])[] = [
  [/^band-(.+?)-riser(-\d+)?-\1-tread-\d+/, "band-$1-rise$2"],
  [/^band-(.+?)-tread(-\d+)-\1-riser\2/, "band-$1-nose$2"],
  [/^band-(.+?)-top-\1-riser/, "band-$1-nose"],
  [/^band-floor-(.+?)-riser/, "band-$1-foot"],
  [/^band-wall-(.+?)-(?:top|tread)/, "band-$1-back"],
  [/^band-wall-(.+?)-riser/, "band-$1-end"],
];

/** `ribs-left` → "ribs left"; `band-steps-riser-1-steps-tread-2` → "band steps rise 1". */
export function zoneName(id: string): string {
  const band = BANDS.find(([faces]) => faces.test(id));
  return (band ? id.replace(...band) : id).replaceAll("-", " ");
}

/** The first letter large, as a heading has it. */
export const headed = (name: string): string => name.slice(0, 1).toUpperCase() + name.slice(1);
