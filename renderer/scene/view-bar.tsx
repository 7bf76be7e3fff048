import {
  Button,
  Group,
  Slider,
  SliderThumb,
  SliderTrack,
  ToggleButton,
  Toolbar,
} from "react-aria-components";
import { useSession } from "../desk.ts";
import { type Axis, lookFrom, session, type View } from "../document/session.ts";
import rows from "../parts/row-buttons.module.css";
import { words } from "../words.ts";
import styles from "./scene.module.css";

const views = ["corner", "plan", "side", "end", "below"] as const satisfies readonly View[];
const axes = ["along", "across", "level"] as const satisfies readonly Axis[];

/** How the shell is seen: from where, which way up, through or cut open, with what beside it. */
export function ViewBar() {
  const section = useSession((s) => s.section);
  return (
    <Toolbar className={styles.views} aria-label={words.views.label} data-over="foot">
      {section && <SectionRow axis={section.axis} at={section.at} />}
      <Group className={`${rows.row} ${styles.row}`} aria-label={words.views.from}>
        {views.map((view) => (
          <Button key={view} onPress={() => lookFrom(view)}>
            {words.views.names[view]}
          </Button>
        ))}
      </Group>
      <Toggles />
    </Toolbar>
  );
}

function Toggles() {
  const { place, seeThrough, section, dimensions, grid } = useSession((s) => s);
  const standing = useSession((s) => s.standing[s.place]);
  const turn = () =>
    session.setState((s) => ({
      standing: { ...s.standing, [place]: standing === "pool-up" ? "plug-up" : "pool-up" },
    }));
  return (
    <div className={`${rows.row} ${styles.row}`}>
      <ToggleButton isSelected={standing === "plug-up"} onChange={turn}>
        {words.views.plugUp}
      </ToggleButton>
      <ToggleButton isSelected={seeThrough} onChange={(on) => session.setState({ seeThrough: on })}>
        {words.views.seeThrough}
      </ToggleButton>
      <ToggleButton
        isSelected={section !== null}
        onChange={(on) => session.setState({ section: on ? { axis: "across", at: 0.5 } : null })}
      >
        {words.views.section}
      </ToggleButton>
      <ToggleButton isSelected={dimensions} onChange={(on) => session.setState({ dimensions: on })}>
        {words.views.dimensions}
      </ToggleButton>
      <ToggleButton isSelected={grid} onChange={(on) => session.setState({ grid: on })}>
        {words.views.grid}
      </ToggleButton>
    </div>
  );
}

function SectionRow({ axis, at }: { readonly axis: Axis; readonly at: number }) {
  const put = (next: number | readonly number[]) =>
    session.setState({ section: { axis, at: typeof next === "number" ? next : next[0] } });
  return (
    <div className={`${rows.row} ${styles.row}`}>
      {axes.map((each) => (
        <ToggleButton
          key={each}
          isSelected={each === axis}
          onChange={() => session.setState({ section: { axis: each, at: 0.5 } })}
        >
          {words.views.axes[each]}
        </ToggleButton>
      ))}
      <Slider
        className={styles.slider}
        aria-label={words.views.sectionAt}
        minValue={0}
        maxValue={1}
        step={0.005}
        value={at}
        onChange={put}
      >
        <SliderTrack className={styles.track}>
          <SliderThumb className={styles.thumb} />
        </SliderTrack>
      </Slider>
    </div>
  );
}
