import { Plus } from "lucide-react";
import { memo } from "react";
import { Button, Menu, MenuItem, MenuTrigger, Popover } from "react-aria-components";
import choice from "../../../parts/choice.module.css";
import { headed } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { choiceName } from "../figures/labels.ts";
import { type Addable, featureKinds, fittingKinds } from "./placing.ts";
import styles from "./sheets.module.css";

const kinds: readonly Addable[] = [...featureKinds, ...fittingKinds];

/** What may be added to the shell: one is chosen here, and then placed on the plan. */
export const AddMenu = memo(function AddMenu({ onChoose }: { readonly onChoose: (kind: Addable) => void }) {
  return (
    <MenuTrigger>
      <Button className={styles.add}>
        <Plus aria-hidden="true" />
        {words.drawing.adding.add}
      </Button>
      <Popover className={choice.popover} offset={4}>
        <Menu
          className={choice.list}
          aria-label={words.drawing.adding.label}
          onAction={(key) => {
            const kind = kinds.find((each) => each === key);
            if (kind) onChoose(kind);
          }}
        >
          {kinds.map((kind) => (
            <MenuItem key={kind} id={kind} className={choice.item}>
              {headed(choiceName(kind))}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
});
