/**
 * Names fit for files on any system, one for each label and no two the same: small letters, digits, `-` and `_`. `foot/1a` becomes `foot-1a`; one that
 * is taken gets a number.
 */
export function fileNamesFor(labels: readonly string[]): string[] {
  const taken = new Set<string>();
  return labels.map((label) => {
    const plain = label
      .normalize("NFKD")
      .toLowerCase()
      .replace(/[^a-z0-9_]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .slice(0, 60);
    // Windows keeps these for devices.
    const base = /^(con|prn|aux|nul|com\d|lpt\d)?$/.test(plain) ? `${plain || "unnamed"}_` : plain;
    let name = base;
    for (let number = 2; taken.has(name); number++) name = `${base}-${number}`;
    taken.add(name);
    return name;
  });
}
