import { line, type Mark, pens, words } from "./drawing.ts";
import { type Fonts, shortened } from "./font.ts";

export interface PaperColumn {
  readonly head: string;
  /** mm; what does not fit is cut short with …. */
  readonly width: number;
  readonly align?: "right";
}

/** Height of a row and size of its words, mm. */
export const ROW = 3.8;
const SIZE = 2.5;

/** A table on a page, its upper left corner at `x`, `y`; it is `ROW × (rows + 1)` high, and a little for the rule. */
export function paperTable(
  x: number,
  y: number,
  columns: readonly PaperColumn[],
  rows: readonly (readonly string[])[],
  fonts: Fonts,
): Mark[] {
  const width = columns.reduce((sum, column) => sum + column.width, 0);
  const rowMarks = (cells: readonly string[], row: number, bold: boolean) => {
    let left = x;
    return cells.flatMap((cell, i): Mark[] => {
      const { width: own, align } = columns[i];
      const at = align === "right" ? left + own - 1.5 : left;
      left += own;
      const text = shortened(bold ? fonts.bold : fonts.plain, cell, SIZE, own - 1.5);
      return text === ""
        ? []
        : [
            words(at, y - ROW * (row + 1) + (row === 0 ? 1.3 : 0.9), text, SIZE, {
              bold,
              ...(align && { align }),
            }),
          ];
    });
  };
  return [
    ...rowMarks(
      columns.map(({ head }) => head),
      0,
      true,
    ),
    line([x, y - ROW + 0.2, x + width, y - ROW + 0.2], pens.fine),
    ...rows.flatMap((cells, i) => rowMarks(cells, i + 1, false)),
  ];
}
