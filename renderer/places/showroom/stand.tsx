import { useEffect } from "react";
import { Button, ToggleButton, ToggleButtonGroup, Toolbar } from "react-aria-components";
import { toast } from "sonner";
import { useDesk, useProject, useResults, useSession } from "../../desk.ts";
import { fileNameFor } from "../../document/project-file.ts";
import { lookFrom, type Standing, session } from "../../document/session.ts";
import { takePicture } from "../../scene/picture.ts";
import { words } from "../../words.ts";
import styles from "./stand.module.css";
import { useStillness } from "./use-stillness.ts";

const standings = ["pool-up", "plug-up"] as const satisfies readonly Standing[];

/** Below the pool in the showroom: looked into or from underneath, turning, and a picture of it to take along. */
export function ShowroomStand() {
  const { host } = useDesk();
  const name = useProject((s) => s.project.name);
  const standing = useSession((s) => s.standing.showroom);
  const turning = useSession((s) => s.turning);
  const built = useResults((r) => r.shell !== null);
  const still = useStillness();

  useEffect(() => {
    if (still) session.setState({ turning: false });
    return () => session.setState({ turning: false });
  }, [still]);

  const stand = (next: Standing) => {
    session.setState((s) => ({ standing: { ...s.standing, showroom: next } }));
    lookFrom("corner");
  };
  const picture = async () => {
    try {
      const bytes = new Uint8Array(await (await takePicture()).arrayBuffer());
      await host.export({ name: fileNameFor(name, ".png"), bytes, type: "image/png" });
    } catch (error) {
      toast.error(error instanceof Error ? error.message : String(error));
    }
  };

  return (
    <Toolbar className={styles.stand} aria-label={words.views.label}>
      <ToggleButtonGroup
        className={styles.row}
        aria-label={words.showroom.side}
        disallowEmptySelection
        selectedKeys={[standing]}
        onSelectionChange={([key]) => stand(key as Standing)}
      >
        {standings.map((each) => (
          <ToggleButton key={each} id={each}>
            {words.showroom.sides[each]}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
      {!still && (
        <div className={styles.row}>
          <ToggleButton isSelected={turning} onChange={(on) => session.setState({ turning: on })}>
            {words.showroom.turn}
          </ToggleButton>
        </div>
      )}
      <div className={styles.row}>
        <Button onPress={() => lookFrom("corner")}>{words.views.fit}</Button>
        <Button onPress={picture} isDisabled={!built}>
          {words.showroom.picture}
        </Button>
      </div>
    </Toolbar>
  );
}
