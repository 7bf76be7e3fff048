import { useEffect } from "react";
import { Button, ToggleButton, ToggleButtonGroup, Toolbar } from "react-aria-components";
import { toast } from "sonner";
import { useDesk, useProject, useResults, useSession } from "../../desk.ts";
import { fileNameFor } from "../../document/project-file.ts";
import { lookFrom, type Side, session, sides } from "../../document/session.ts";
import rows from "../../parts/row-buttons.module.css";
import { tell } from "../../parts/tell.ts";
import { takePicture } from "../../scene/picture.ts";
import { words } from "../../words.ts";
import styles from "./stand.module.css";
import { useStillness } from "./use-stillness.ts";

/** Below the pool in the showroom: looked into or at its walls from outside, turning, and a picture of it to take along. */
export function ShowroomStand() {
  const { host } = useDesk();
  const name = useProject((s) => s.project.name);
  const side = useSession((s) => s.side);
  const turning = useSession((s) => s.turning);
  const built = useResults((r) => r.shell !== null);
  const still = useStillness();

  useEffect(() => {
    if (still) session.setState({ turning: false });
    return () => session.setState({ turning: false });
  }, [still]);

  const turnTo = (next: Side) => {
    session.setState({ side: next });
    lookFrom("corner");
  };
  const picture = async () => {
    try {
      const bytes = new Uint8Array(await (await takePicture()).arrayBuffer());
      const file = fileNameFor(name, ".png");
      const saved = await host.export({ name: file, bytes, type: "image/png" });
      if (saved) toast.success(words.file.written(file));
    } catch (error) {
      tell(error);
    }
  };

  return (
    <Toolbar className={styles.stand} aria-label={words.views.label}>
      <ToggleButtonGroup
        className={`${rows.row} ${styles.row}`}
        aria-label={words.showroom.side}
        disallowEmptySelection
        selectedKeys={[side]}
        onSelectionChange={([key]) => turnTo(key as Side)}
      >
        {sides.map((each) => (
          <ToggleButton key={each} id={each}>
            {words.showroom.sides[each]}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
      {!still && (
        <div className={`${rows.row} ${styles.row}`}>
          <ToggleButton isSelected={turning} onChange={(on) => session.setState({ turning: on })}>
            {words.showroom.turn}
          </ToggleButton>
        </div>
      )}
      <div className={`${rows.row} ${styles.row}`}>
        <Button onPress={() => lookFrom("corner")}>{words.views.fit}</Button>
        <Button onPress={picture} isDisabled={!built}>
          {words.showroom.picture}
        </Button>
      </div>
    </Toolbar>
  );
}
