import type { Cell, ColumnName, KitList, ListName, Row } from "./kit-lists.ts";

/** The column that a list is ordered by. Without one it stands as the kit gives it: zone by zone. */
export interface Order {
  readonly column: ColumnName;
  readonly direction: "ascending" | "descending";
}

/** Only rows of this zone and of this material; null: of any. */
export interface Sieve {
  readonly zone: string | null;
  readonly material: string | null;
}

const words = new Intl.Collator("en", { numeric: true });

/** The rows that pass the sieve, in order. Equal rows keep the order of the kit; empty cells come last either way. */
export function arranged({ rows }: KitList, sieve: Sieve, order: Order | null): readonly Row[] {
  const passed = rows.filter(
    ({ zone, material }) =>
      (sieve.zone === null || zone === null || zone === sieve.zone) &&
      (sieve.material === null || material === sieve.material),
  );
  if (!order) return passed;
  const way = order.direction === "ascending" ? 1 : -1;
  return passed.sort(({ cells: { [order.column]: a } }, { cells: { [order.column]: b } }) => {
    if (!a || !b) return Number(!a) - Number(!b);
    return way * compare(a, b);
  });
}

function compare({ by: a }: Cell, { by: b }: Cell): number {
  return typeof a === "number" && typeof b === "number" ? a - b : words.compare(String(a), String(b));
}

/** The list in which a zone's pieces stand; null where nothing is cut for it. */
export function listOf(zone: string, lists: Readonly<Record<ListName, KitList>>): ListName | null {
  const cut = (["pieces", "strips", "sheets"] as const).find((name) =>
    lists[name].rows.some((row) => row.zone === zone),
  );
  return cut ?? null;
}
