/** Longest id that a project allows. */
const LONGEST = 60;

/**
 * The id of an automatic zone, made from its kind and the name of what it lies on: `band-foot`, `ribs-left`,
 * `gussets-steps-tread-1`. Letters, digits and hyphens; a name too long is cut and given a number of its own, so that different
 * names keep different ids; `taken` ids are passed over.
 */
export function zoneName(kind: string, of: string, taken: ReadonlySet<string>): string {
  const plain = `${kind}-${of}`
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  const short = plain.length <= LONGEST ? plain : `${plain.slice(0, LONGEST - 7)}-${fingerprint(of)}`;
  for (let n = 2, id = short; ; n++) {
    if (!taken.has(id)) return id;
    id = `${short.slice(0, LONGEST - 4)}-${n}`;
  }
}

/** Six letters that hang on the whole of a text: FNV-1a, 32 bits. */
function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(36).padStart(6, "0").slice(-6);
}
