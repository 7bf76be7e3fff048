import { CopyPlus } from "lucide-react";
import { Button, Menu, MenuItem, MenuTrigger, Popover } from "react-aria-components";
import { toast } from "sonner";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { useDesk, useProject, useResults, useSession } from "../../desk.ts";
import choice from "../../parts/choice.module.css";
import icon from "../../parts/icon-button.module.css";
import { headed, zoneName } from "../../parts/names.ts";
import { asRead } from "../../parts/refusal.ts";
import { copiedTo } from "../../tools/copy-to.ts";
import { named } from "../../tools/zone-edits.ts";
import { targetsFor } from "../../tools/zone-names.ts";
import { words } from "../../words.ts";
import { layNew } from "./acts.ts";

/** Copies a zone to another tread, wall or transition; one that would find no place there is not laid, and it is said why. */
export function CopyMenu({ zone }: { readonly zone: ZoneSpec }) {
  const desk = useDesk();
  const project = useProject((s) => s.project);
  const lines = useResults((r) => r.lines);
  const targets = targetsFor(zone, project, lines);
  const lengths = useSession((s) => s.lengths);
  const copy = async (target: string) => {
    const [made] = named(project, [copiedTo(zone, target)]);
    const [tried] = await desk.trials.lay(project, [made]);
    if (tried.ok) layNew(desk, [made], words.steps.copy(zoneName(zone.id)));
    else toast.error(asRead(tried.why, lengths), { description: asRead(tried.mend, lengths) });
  };
  return (
    <MenuTrigger>
      <Button className={icon.button} aria-label={words.floor.copyTo} isDisabled={targets.length === 0}>
        <CopyPlus />
      </Button>
      <Popover className={choice.popover} offset={4}>
        <Menu className={choice.list} onAction={(key) => void copy(String(key))}>
          {targets.map(({ id, name }) => (
            <MenuItem key={id} id={id} className={choice.item}>
              {headed(name)}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
