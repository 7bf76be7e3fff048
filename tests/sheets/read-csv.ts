/** A slow and obvious reader of RFC 4180, to read back what the product writes. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = "";
  let quoted = false;
  for (let i = text.startsWith("\ufeff") ? 1 : 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') cell += text[i++];
      else quoted = false;
    } else if (c === '"') quoted = true;
    else if (c === ",") {
      row.push(cell);
      cell = "";
    } else if (c === "\r" && text[i + 1] === "\n") {
      rows.push([...row, cell]);
      row = [];
      cell = "";
      i++;
    } else cell += c;
  }
  if (quoted || row.length > 0 || cell !== "") throw new Error("The last row is not ended.");
  return rows;
}

/** The rows as objects by the heads of their columns. */
export function readTable(text: string): Record<string, string>[] {
  const [heads, ...rows] = readCsv(text);
  return rows.map((row) => Object.fromEntries(heads.map((head, i) => [head, row[i]])));
}
