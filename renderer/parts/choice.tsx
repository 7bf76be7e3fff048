import { memo } from "react";
import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from "react-aria-components";
import { sameValue } from "../document/same-value.ts";
import styles from "./choice.module.css";
import { useSteady } from "./use-steady.ts";

interface Option<Id extends string> {
  readonly id: Id;
  readonly name: string;
}

interface ChoiceProps<Id extends string> {
  readonly label: string;
  readonly options: readonly Option<Id>[];
  readonly chosen: Id;
  readonly onChoose: (id: Id) => void;
  readonly narrow?: boolean;
}

/** One of a few, from a list that opens. `narrow` keeps its label for readers only. */
export function Choice<Id extends string>(props: ChoiceProps<Id>) {
  const choose = useSteady((id: string) => props.onChoose(id as Id));
  return <List {...props} onChoose={choose} />;
}

/** Rendered only where what it shows has changed: it is dear, and stands beside many a figure that is dragged. */
const List = memo(function List({ label, options, chosen, onChoose, narrow }: ChoiceProps<string>) {
  return (
    <Select
      className={styles.choice}
      data-narrow={narrow || undefined}
      value={chosen}
      onChange={(key) => onChoose(String(key))}
    >
      <Label className={narrow ? "for-readers" : styles.label}>{label}</Label>
      <Button className={styles.button}>
        <SelectValue className={styles.value} />
        <svg viewBox="0 0 10 6" className={styles.arrow} aria-hidden="true">
          <path d="M1 1L5 5L9 1" />
        </svg>
      </Button>
      <Popover className={styles.popover} offset={4}>
        <ListBox className={styles.list}>
          {options.map(({ id, name }) => (
            <ListBoxItem key={id} id={id} className={styles.item}>
              {name}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}, sameValue);
