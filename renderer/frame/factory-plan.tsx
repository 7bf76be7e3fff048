import { Button } from "react-aria-components";
import { useSession } from "../desk.ts";
import { type Place, places, session } from "../document/session.ts";
import { words } from "../words.ts";
import styles from "./factory-plan.module.css";
import { LengthsChoice, ThemeChoice } from "./settings.tsx";

/** The way through: the factory's floor plan, four rooms with doorways as the job walks. The room one is in is inked. */
export function FactoryPlan() {
  const here = useSession((s) => s.place);
  return (
    <nav className={styles.plan} aria-label={words.placesLabel}>
      <ul className={styles.rooms}>
        {places.map((place) => (
          <li key={place} className={styles.room}>
            <Button
              className={styles.door}
              aria-current={place === here ? "page" : undefined}
              aria-label={words.places[place].name}
              onPress={() => session.setState({ place })}
            >
              <svg viewBox="0 0 36 28" className={styles.glyph} aria-hidden="true">
                <path d={glyphs[place]} />
              </svg>
              {words.places[place].lines.map((line) => (
                <span key={line}>{line}</span>
              ))}
            </Button>
          </li>
        ))}
      </ul>
      <div className={styles.settings}>
        <LengthsChoice />
        <ThemeChoice />
      </div>
    </nav>
  );
}

/** A pair of dividers, a shell on its plug, pieces nested on the roll, water. */
const glyphs: Record<Place, string> = {
  "drawing-office": "M18 3V7M18 7L8 26M18 7L28 26M12.5 18C16 20.5 20 20.5 23.5 18M16 3H20",
  "lay-up-floor":
    "M4 24H8L11 10C11.5 8 12.5 7 14.5 7H21.5C23.5 7 24.5 8 25 10L28 24H32M14 12L12 24M22 12L24 24",
  "cutting-room": "M4 6H32V22H4ZM4 14H15V6M15 14V22M15 11H25V6M25 11V22",
  showroom:
    "M4 11C7.5 7 10.5 15 14 11S21 7 24.5 11 30 13 32 11M4 19C7.5 15 10.5 23 14 19S21 15 24.5 19 30 21 32 19",
};
