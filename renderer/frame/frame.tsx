import { Group, Panel, Separator } from "react-resizable-panels";
import { useSession } from "../desk.ts";
import { placeParts } from "../places/places.ts";
import { Scene } from "../scene/scene.tsx";
import { words } from "../words.ts";
import { FactoryPlan } from "./factory-plan.tsx";
import styles from "./frame.module.css";
import { Progress } from "./progress.tsx";
import { TotalsLine } from "./totals-line.tsx";

/**
 * The frame round every place: the factory's plan at the left, the line of totals on top, the place itself with the scene,
 * its job card at the right and what lies along its foot. Panels are dragged by their borders.
 */
export function Frame() {
  const place = useSession((s) => s.place);
  const { Bar, Card, Foot, Main } = placeParts[place];
  return (
    <div className={styles.frame}>
      <TotalsLine />
      <FactoryPlan />
      <Progress />
      <Group orientation="vertical" className={styles.rooms}>
        <Panel id="upper" minSize="240px">
          <Group orientation="horizontal">
            <Panel id="main" minSize="320px">
              <main className={styles.main} aria-label={words.places[place].name}>
                <div className={styles.stage} hidden={Main !== null}>
                  <Scene />
                </div>
                {Main && <Main />}
                {Bar && <Bar />}
              </main>
            </Panel>
            <Separator className={styles.upright} />
            <Panel id="card" defaultSize="344px" minSize="260px" maxSize="560px">
              <aside className={styles.card} aria-label={words.card.label}>
                <Card />
              </aside>
            </Panel>
          </Group>
        </Panel>
        {Foot && (
          <>
            <Separator className={styles.level} />
            <Panel id="foot" defaultSize="210px" minSize="120px" maxSize="45%">
              <footer className={styles.foot}>
                <Foot />
              </footer>
            </Panel>
          </>
        )}
      </Group>
    </div>
  );
}
