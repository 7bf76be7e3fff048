import { Button, Switch } from "react-aria-components";
import type { Kit } from "../../../core/cutting/kit.ts";
import { printArea } from "../../../core/units/area.ts";
import { printLength } from "../../../core/units/length.ts";
import { useProject, useResults, useSession } from "../../desk.ts";
import { type Reinforcement, session } from "../../document/session.ts";
import { isImperial } from "../../parts/imperial.ts";
import { printVolume } from "../../parts/volume.ts";
import { words } from "../../words.ts";
import type { Results } from "../../worker/results.ts";
import { useStaleLayup, useStaleMeasure } from "../use-stale.ts";
import { layersInWords, presentKinds } from "./buyers-figures.ts";
import styles from "./sheet.module.css";
import { Swatch } from "./swatch.tsx";

/** The sheet beside the pool in the showroom: what is in it, a kind at a time, and the figures that a buyer asks for. */
export function ShowroomSheet() {
  const name = useProject((s) => s.project.name);
  const wrong = useResults(isWrong);
  const built = useResults((r) => r.shell !== null);
  const stale = [useStaleLayup(), useStaleMeasure()].includes(true);
  return (
    <div className={styles.sheet}>
      <h1>{name}</h1>
      {stale && !wrong && <p className={styles.soft}>{words.showroom.stale}</p>}
      {wrong && (
        <p className={styles.wrong} role="alert">
          {built ? words.showroom.wrong : words.showroom.wrongFirst}{" "}
          <Button className={styles.link} onPress={() => session.setState({ place: "drawing-office" })}>
            {words.cutting.amend}
          </Button>
        </p>
      )}
      <Kinds />
      <Figures />
      <p className={styles.caution}>{words.showroom.caution}</p>
    </div>
  );
}

const none: Kit["sheets"] = [];
const isWrong = ({ refusals, fault }: Results) => refusals.length > 0 || fault !== null;

function Kinds() {
  const zones = useResults((r) => r.zones);
  const laid = useResults((r) => r.of !== null);
  const wrong = useResults(isWrong);
  const lengths = useSession((s) => s.lengths);
  const shown = useSession((s) => s.shown);
  const sheets = useResults((r) => r.kit?.sheets ?? none);
  const stale = useStaleLayup();
  const kinds = presentKinds(zones, sheets, lengths);
  const show = (kind: Reinforcement, on: boolean) =>
    session.setState((s) => ({
      shown: new Set(on ? [...s.shown, kind] : [...s.shown].filter((each) => each !== kind)),
    }));
  if (wrong && !laid) return null;
  return (
    <section className={styles.kinds} aria-labelledby="showroom-kinds">
      <h2 id="showroom-kinds">{words.showroom.reinforcement}</h2>
      {kinds.length === 0 && (
        <p className={styles.soft}>{laid ? words.showroom.nothing : words.showroom.computing}</p>
      )}
      {kinds.map(({ kind, amount }) => (
        <div key={kind} className={styles.kind}>
          <Switch className={styles.switch} isSelected={shown.has(kind)} onChange={(on) => show(kind, on)}>
            <span className={styles.track} aria-hidden="true" />
            <Swatch kind={kind} />
            <span className={styles.kindName}>{words.showroom.kinds[kind].name}</span>
            <span className={styles.soft} data-figures="" data-stale={stale || undefined}>
              {amount}
            </span>
          </Switch>
          {shown.has(kind) && <p className={styles.why}>{words.showroom.kinds[kind].why}</p>}
        </div>
      ))}
    </section>
  );
}

function Figures() {
  const shell = useResults((r) => r.shell);
  const measure = useResults((r) => r.measure);
  const zones = useResults((r) => r.zones);
  const laid = useResults((r) => r.of !== null);
  const missing = useResults(isWrong) ? "–" : words.card.measuring;
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  const { figures } = words.showroom;
  const size = (mm: number) => printLength(mm, imperial ? lengths : "m");
  const [staleMeasure, staleLayup] = [useStaleMeasure(), useStaleLayup()];
  const lines: readonly (readonly [id: keyof typeof figures, figure: string | null, stale: boolean])[] = [
    ["length", shell && size(shell.size.length), false],
    ["width", shell && size(shell.size.width), false],
    ["depth", shell && size(shell.size.depth), false],
    ["water", measure && printVolume(measure.volumeToWaterMm3, imperial), staleMeasure],
    ["surface", measure && printArea(measure.areaMm2 / 1e6, imperial ? "ft2" : "m2"), staleMeasure],
    ["layers", laid ? layersInWords(zones) : null, staleLayup],
  ];
  return (
    <section aria-labelledby="showroom-figures">
      <h2 id="showroom-figures">{words.showroom.figuresTitle}</h2>
      <dl className={styles.figures} data-figures="">
        {lines.map(([id, figure, stale]) => (
          <div key={id}>
            <dt>{figures[id]}</dt>
            <dd data-figure={id} data-stale={stale || undefined}>
              {figure ?? missing}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
