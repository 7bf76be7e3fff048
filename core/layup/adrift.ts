import { nearestWord } from "../project/nearest-word.ts";

/** Why a zone finds no place on this shell, and what would mend it: two plain sentences. */
export interface Astray {
  readonly why: string;
  readonly mend: string;
}

/** Tells a reason from something that was placed. */
export function isAstray<T extends object>(result: T | Astray): result is Astray {
  return "why" in result && "mend" in result;
}

/** Most names that a sentence lists. */
const MOST_NAMES = 8;

/** A name that leads nowhere: what there is, and which one may be meant. */
export function unknownName(what: string, name: string, known: readonly string[]): Astray {
  const nearest = nearestWord(name, known);
  const listed = known.slice(0, MOST_NAMES).join(", ");
  const more = known.length > MOST_NAMES ? ` and ${known.length - MOST_NAMES} more` : "";
  return {
    why: `This shell has no ${what} ${name}.`,
    mend:
      known.length === 0
        ? `There is no ${what} on this shell.`
        : `${nearest ? `Did you mean ${nearest}? ` : ""}There are ${listed}${more}.`,
  };
}

/**
 * A face that this shell does not have: where its whole feature went, that is what there is to say; else which name may be
 * meant. `known` are the faces that would do.
 */
export function unknownFace(
  what: string,
  face: string,
  known: readonly string[],
  features: readonly string[],
): Astray {
  const [feature, part] = face.split("/");
  if (part === undefined || features.includes(feature)) return unknownName(what, face, known);
  const others = known.length > 0 ? ` Other faces: ${known.slice(0, MOST_NAMES).join(", ")}.` : "";
  return {
    why: `This shell has no ${feature}, so there is no ${face}.`,
    mend: `Put ${feature} back, or leave the zone out.${others}`,
  };
}

/** A length as sentences give it: whole millimetres. */
export const mm = (length: number): string => `${Math.round(length)} mm`;
