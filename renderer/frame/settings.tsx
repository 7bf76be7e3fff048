import type { LengthStyle } from "../../core/units/length.ts";
import { useSession } from "../desk.ts";
import { session, type Theme } from "../document/session.ts";
import { Choice } from "../parts/choice.tsx";
import { words } from "../words.ts";

const styles = ["mm", "m", "in", "ft-in"] as const satisfies readonly LengthStyle[];
const themes = ["system", "paper", "slate"] as const satisfies readonly Theme[];

/** How lengths are written throughout. */
export function LengthsChoice() {
  const lengths = useSession((s) => s.lengths);
  return (
    <Choice
      label={words.settings.lengths}
      options={styles.map((id) => ({ id, name: words.settings.lengthStyles[id] }))}
      chosen={lengths}
      onChoose={(next) => session.setState({ lengths: next })}
      narrow
    />
  );
}

/** Light paper, dark slate, or whichever the system has. */
export function ThemeChoice() {
  const theme = useSession((s) => s.theme);
  return (
    <Choice
      label={words.settings.theme}
      options={themes.map((id) => ({ id, name: words.settings.themes[id] }))}
      chosen={theme}
      onChoose={(next) => session.setState({ theme: next })}
      narrow
    />
  );
}
