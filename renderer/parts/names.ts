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

/** `ribs-left` → "ribs left". */
export const zoneName = (id: string): string => id.replaceAll("-", " ");

/** The first letter large, as a heading has it. */
export const headed = (name: string): string => name.slice(0, 1).toUpperCase() + name.slice(1);
