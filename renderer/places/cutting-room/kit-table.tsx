import { useEffect, useRef, useState } from "react";
import {
  Cell,
  Column,
  Row,
  type Selection,
  Table,
  TableBody,
  TableHeader,
  TableLayout,
  Virtualizer,
} from "react-aria-components";
import { useSession } from "../../desk.ts";
import { select, session } from "../../document/session.ts";
import { letterScale } from "../../look/letter-scale.ts";
import { words } from "../../words.ts";
import type { ColumnName, Column as KitColumn, Row as KitRow } from "./kit-lists.ts";
import styles from "./kit-table.module.css";
import type { Order } from "./order.ts";

/** Heights at the usual size of letters; they grow with it, px. */
const ROW = 28;
const HEAD = 34;

/** Least widths of columns, px; where there is more room they share it in these proportions. */
const FIGURES = 86;
/** Room of a letter or figure at the most, and about the text of a cell, px. */
const LETTER = 7.5;
const AROUND = 18;
const widths: Partial<Record<ColumnName, number>> = {
  name: 126,
  zone: 106,
  material: 162,
  ply: 44,
  number: 64,
  ofLot: 60,
  width: 80,
  left: 102,
  right: 110,
  area: 74,
  mass: 72,
  lies: 240,
};
/** A column of words grows with them up to this, px; what is longer stands whole below the table. */
const WORDS = 300;

/** A list of the kit. Only the rows in sight are made; a row lights up its zone, and a chosen zone brings its rows into sight. */
export function KitTable(props: {
  readonly label: string;
  readonly columns: readonly KitColumn[];
  readonly rows: readonly KitRow[];
  readonly order: Order | null;
  readonly onOrder: (order: Order) => void;
}) {
  const { label, columns, rows, order, onOrder } = props;
  const scale = letterScale();
  const selected = useSession((s) => s.selected);
  const hovered = useSession((s) => s.hovered);
  const chosen = new Set(selected.filter(({ kind }) => kind === "zone").map(({ id }) => id));
  const pointed = hovered?.kind === "zone" ? hovered.id : null;
  const table = useRef<HTMLTableElement>(null);
  /** The zone that was chosen from this table: its rows are in sight already. */
  const own = useRef<string | null>(null);

  const zone = selected.find(({ kind }) => kind === "zone")?.id ?? null;
  useEffect(() => {
    if (zone === null || zone === own.current) return;
    own.current = null;
    const first = rows.findIndex((row) => row.zone === zone);
    if (first >= 0 && table.current) table.current.scrollTop = first * ROW * scale;
  }, [zone, rows, scale]);

  const inked = new Set(rows.filter((row) => row.zone !== null && chosen.has(row.zone)).map(({ id }) => id));
  /** All rows of a zone are inked together: the row that was gone to is the one that was not. */
  const choose = (keys: Selection) => {
    if (keys === "all") return;
    const gone = [...keys].find((key) => !inked.has(String(key))) ?? [...keys].at(-1);
    const next = rows.find(({ id }) => id === gone)?.zone;
    if (!next) return;
    own.current = next;
    select({ kind: "zone", id: next });
  };

  /** The row that is pointed at or gone to, to be read whole. */
  const [read, setRead] = useState<string | null>(null);
  const selectable = rows.some((row) => row.zone !== null);
  const whole = rows.find(({ id }) => id === read);
  const columnsWide = columns.map((column) => widthOf(column, rows) * scale);
  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys are those of the table in it. */}
      <div
        className={styles.frame}
        onFocus={({ target }) => setRead(target.closest('[role="row"]')?.getAttribute("data-key") ?? null)}
      >
        <Virtualizer
          layout={TableLayout}
          layoutOptions={{ rowHeight: ROW * scale, headingHeight: HEAD * scale }}
        >
          <Table
            ref={table}
            aria-label={label}
            className={styles.table}
            data-figures=""
            selectionMode={selectable ? "multiple" : "none"}
            selectionBehavior="replace"
            selectedKeys={inked}
            onSelectionChange={choose}
            sortDescriptor={order ?? undefined}
            onSortChange={({ column, direction }) => onOrder({ column: column as ColumnName, direction })}
          >
            <TableHeader
              columns={columns.map((column, i) => ({ ...column, id: column.name, wide: columnsWide[i] }))}
            >
              {(column) => (
                <Column
                  id={column.name}
                  isRowHeader={column.name === columns[0].name}
                  allowsSorting
                  defaultWidth={`${Math.round(column.wide)}fr`}
                  minWidth={column.wide}
                  className={styles.head}
                  data-right={column.figures || undefined}
                >
                  {words.cutting.columns[column.name]}
                  {column.unit !== "" && <span className={styles.unit}> {column.unit}</span>}
                </Column>
              )}
            </TableHeader>
            <TableBody items={rows} dependencies={[columns, pointed]}>
              {(row) => (
                <Row
                  id={row.id}
                  columns={columns.map((column) => ({ ...column, id: column.name }))}
                  className={styles.row}
                  data-lit={(row.zone !== null && row.zone === pointed) || undefined}
                  onHoverStart={() => {
                    setRead(row.id);
                    if (row.zone !== null) session.setState({ hovered: { kind: "zone", id: row.zone } });
                  }}
                  onHoverEnd={() => session.setState({ hovered: null })}
                >
                  {(column) => (
                    <Cell
                      className={styles.cell}
                      data-right={column.figures || undefined}
                      data-column={column.name}
                    >
                      {row.cells[column.name]?.text ?? ""}
                    </Cell>
                  )}
                </Row>
              )}
            </TableBody>
          </Table>
        </Virtualizer>
      </div>
      {selectable && (
        <p className={styles.whole} data-figures="">
          {whole ? (
            <>
              <strong>{whole.id}</strong> {whole.cells.lies?.text}
            </>
          ) : (
            words.cutting.wholeRow
          )}
        </p>
      )}
    </>
  );
}

/** Words that are too long may end in an ellipsis; a figure is never cut, since what is left of it would read as another. */
function widthOf({ name, figures }: KitColumn, rows: readonly KitRow[]): number {
  const least = widths[name] ?? FIGURES;
  const longest = rows.reduce((most, { cells }) => Math.max(most, cells[name]?.text.length ?? 0), 0);
  const wanted = Math.max(least, longest * LETTER + AROUND);
  return figures ? wanted : Math.min(wanted, WORDS);
}
