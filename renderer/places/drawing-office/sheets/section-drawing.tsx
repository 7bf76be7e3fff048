import { useId } from "react";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { printLength } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import { letterScale } from "../../../look/letter-scale.ts";
import { zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { chainPath } from "./chain-path.ts";
import { Dimension } from "./dimension.tsx";
import { floorChain, insideLine, type Level, levelsOf } from "./drawn-section.ts";
import type { Drawn } from "./drawn-shell.ts";
import { type Fit, toScreen } from "./fit.ts";
import type { Spot } from "./handle.ts";
import styles from "./sheets.module.css";

interface Props {
  readonly shell: ShellSpec;
  readonly drawn: Drawn;
  readonly fit: Fit;
  readonly chosen: string | null;
}

/** The section in ink: the inside of the shell cut along its length, the water in it, the treads that are met. */
export function SectionDrawing({ shell, drawn, fit, chosen }: Props) {
  const clip = useId();
  const { floor } = drawn;
  const { from, to } = drawn.cut;
  const inside = floor && insideLine(shell, drawn, floor);
  const deepest = floor?.deepest ?? 0;
  // A tread below the floor is not to be seen.
  const levels = levelsOf(drawn).filter(({ block }) => block.depth < deepest + 100);
  const turn = `matrix(${fit.scale} 0 0 ${-fit.scale} ${fit.left} ${fit.top})`;
  return (
    <>
      <g transform={turn}>
        <clipPath id={clip}>
          {/* Where the cove finds no room, the floor is shown from rim to rim. */}
          <path d={inside ? `${chainPath(inside)}Z` : `M${from} 0H${to}V${-deepest - 20}H${from}Z`} />
        </clipPath>
        <g clipPath={`url(#${clip})`}>
          <rect
            x={from}
            y={-deepest}
            width={to - from}
            height={Math.max(0, deepest - shell.waterLine)}
            className={styles.water}
          />
          {levels.map(({ block, from: a, to: b, cut }) => (
            <rect
              key={`${block.top} ${a}`}
              x={a}
              y={-deepest - 100}
              width={b - a}
              height={deepest + 100 - block.depth}
              className={cut ? styles.tread : styles.beyond}
              data-chosen={block.feature === chosen || undefined}
            />
          ))}
          <path d={`M${from} ${-shell.waterLine}H${to}`} className={styles.waterLine} />
          {floor && !inside && <path d={chainPath(floorChain(shell, drawn, floor))} className={styles.rim} />}
        </g>
        {inside && <path d={chainPath(inside)} className={styles.rim} />}
        <path d={`M${from - drawn.flange} 0H${from}M${to} 0H${to + drawn.flange}`} className={styles.rim} />
      </g>
      <Names shell={shell} drawn={drawn} fit={fit} levels={levels} />
    </>
  );
}

/** What is what: the treads by name, the depth at each station, the water line, length and greatest depth. */
function Names(props: Omit<Props, "chosen"> & { readonly levels: readonly Level[] }) {
  const { shell, drawn, fit, levels } = props;
  const lengths = useSession((s) => s.lengths);
  const { from, to } = drawn.cut;
  const at = (x: number, y: number) => toScreen(fit, { x, y });
  const letters = letterScale();
  const deepest = drawn.floor?.deepest ?? 0;
  const named = shell.features.flatMap(({ id }) => {
    const seen = levels.flatMap((level, i) =>
      level.block.feature === id ? seenOf(level, levels.slice(i + 1)) : [],
    );
    if (seen.length === 0) return [];
    return [{ id, at: seen.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a)) }];
  });
  const below = at(0, -deepest).y + 30 * letters;
  const beside =
    at(Math.max(to + drawn.flange, shell.floor.stations[shell.floor.stations.length - 1].at), 0).x + 14;
  return (
    <>
      {stacked(
        named.map(({ id, at: level }) => ({
          id,
          level,
          ...at((level.from + level.to) / 2, 0),
        })),
        letters,
      ).map(({ id, level, x, y }) => (
        <text key={id} className={styles.label} x={x} y={y - 5} data-beyond={level.cut ? undefined : ""}>
          {zoneName(id)}
        </text>
      ))}
      {/* Under the floor, or over it beside another. */}
      {stacked(
        shell.floor.stations.map((station) => ({ ...station, ...at(station.at, -station.depth) })),
        2 * letters,
      ).map(({ at: station, depth, x, y }) => (
        <text key={station} className={styles.label} x={x} y={y + 18 * letters} data-figures="">
          {printLength(depth, lengths)}
        </text>
      ))}
      {/* Under its line, since the treads' names stand over the rim. */}
      <text
        className={styles.label}
        x={at((from + to) / 2, 0).x}
        y={at(0, -shell.waterLine).y + 14 * letters}
        data-figures=""
      >
        {words.drawing.section.water} {printLength(shell.waterLine, lengths)}
      </text>
      <Dimension
        name="section-length"
        mm={to - from}
        from={{ x: at(from, 0).x, y: below }}
        to={{ x: at(to, 0).x, y: below }}
      />
      <Dimension
        name="section-depth"
        mm={deepest}
        from={{ x: beside, y: at(0, 0).y }}
        to={{ x: beside, y: at(0, -deepest).y }}
      />
    </>
  );
}

/** What is seen of a level behind those that stand higher. */
function seenOf(level: Level, higher: readonly Level[]): Level[] {
  let seen = [level];
  for (const { from, to, cut } of higher) {
    if (!cut) continue;
    seen = seen.flatMap((part) => [
      ...(part.from < from ? [{ ...part, to: Math.min(part.to, from) }] : []),
      ...(part.to > to ? [{ ...part, from: Math.max(part.from, to) }] : []),
    ]);
  }
  return seen;
}

/** Room that a name takes on the screen, pixels. */
const NAME = { width: 74, height: 13 };

/** Names one over the other, so many of their heights, where they would stand on each other. */
function stacked<T extends Spot>(names: readonly T[], heights: number): T[] {
  const letters = letterScale();
  const [wide, high] = [NAME.width * letters, NAME.height * heights];
  const placed: T[] = [];
  for (const name of names) {
    let { y } = name;
    const { x } = name;
    while (placed.some((each) => Math.abs(each.x - x) < wide && Math.abs(each.y - y) < NAME.height * letters))
      y -= high;
    placed.push({ ...name, y });
  }
  return placed;
}
