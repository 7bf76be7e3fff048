/** A kind of measure and its units. */
export type Unit = {
  /** Every way to write it, lower case; the first is used in messages. */
  readonly names: readonly string[];
  /** How many base units make one of it. */
  readonly size: number;
  /** The unit that may follow without a sign, as inches follow feet. */
  readonly smaller?: string;
  /** Whether drawings put a dash between it and the smaller unit: 24'-6". */
  readonly dashed?: boolean;
};

export type UnitTable = {
  /** With its article, for messages: "a length". */
  readonly kind: string;
  /** Good examples, for messages. */
  readonly examples: string;
  readonly units: readonly Unit[];
};

/** The unit of a table by one of its names; a name that is not there is a mistake of the caller. */
export function unitNamed(table: UnitTable, name: string): Unit {
  const unit = table.units.find(({ names }) => names.includes(name));
  if (!unit) throw new RangeError(`${name} is not in the table of ${table.kind}`);
  return unit;
}
