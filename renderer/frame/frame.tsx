import { Group, Panel, Separator } from "react-resizable-panels";
import { useSession } from "../desk.ts";
import { letterScale } from "../look/letter-scale.ts";
import { placeParts } from "../places/places.ts";
import { Scene } from "../scene/scene.tsx";
import { words } from "../words.ts";
import { FactoryPlan } from "./factory-plan.tsx";
import styles from "./frame.module.css";
import { keptSizes } from "./kept-sizes.ts";
import { Progress } from "./progress.tsx";
import { TotalsLine } from "./totals-line.tsx";

/** The card until its border is dragged: as wide as its words want, but no more than this part of the window. */
const CARD_PX = 344;
const CARD_PART = 0.34;

/**
 * The frame round every place: the factory's plan at the left, the line of totals on top, the scene, the job card at the right
 * and what lies along the foot. Panels are dragged by their borders, and stay as they were left.
 */
export function Frame() {
  const place = useSession((s) => s.place);
  const { Bar, Card, Foot, footSize, calm } = placeParts[place];
  const foot = `${place} foot`;
  const wide = keptSizes("card", ["main", "card"]);
  const high = keptSizes(foot, ["upper", foot]);
  return (
    <div className={styles.frame} data-calm={calm || undefined}>
      {!calm && <TotalsLine />}
      <FactoryPlan />
      <main className={styles.rooms} aria-label={words.places[place].name}>
        <Group orientation="vertical" onLayoutChanged={high.keep}>
          <Panel id="upper" minSize="140px">
            <Group orientation="horizontal" onLayoutChanged={wide.keep}>
              <Panel id="main" minSize="260px">
                <div className={styles.main} data-picture="">
                  <div className={styles.stage}>
                    <Scene />
                  </div>
                  {Bar && <Bar />}
                  <Progress underTools={place === "lay-up-floor"} />
                </div>
              </Panel>
              <Separator className={styles.upright} aria-label={words.borders.card} />
              <Panel
                id="card"
                defaultSize={
                  wide.sizeOf("card") ?? `${Math.min(CARD_PX * letterScale(), CARD_PART * innerWidth)}px`
                }
                minSize="220px"
                maxSize="60%"
              >
                <section className={styles.card} aria-label={words.card.label}>
                  <Card />
                </section>
              </Panel>
            </Group>
          </Panel>
          {Foot && (
            <>
              <Separator className={styles.level} aria-label={words.borders.foot} />
              <Panel
                key={foot}
                id={foot}
                defaultSize={high.sizeOf(foot) ?? footSize ?? "13rem"}
                minSize="120px"
                maxSize="80%"
              >
                <div className={styles.foot}>
                  <Foot />
                </div>
              </Panel>
            </>
          )}
        </Group>
      </main>
    </div>
  );
}
