import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from "react-aria-components";
import styles from "./choice.module.css";

interface Option<Id extends string> {
  readonly id: Id;
  readonly name: string;
}

/** One of a few, from a list that opens. `narrow` keeps its label for readers only. */
export function Choice<Id extends string>(props: {
  readonly label: string;
  readonly options: readonly Option<Id>[];
  readonly chosen: Id;
  readonly onChoose: (id: Id) => void;
  readonly narrow?: boolean;
}) {
  const { label, options, chosen, onChoose, narrow } = props;
  return (
    <Select
      className={styles.choice}
      data-narrow={narrow || undefined}
      value={chosen}
      onChange={(key) => onChoose(key as Id)}
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
}
