import { useId } from "react";
import type { Outline } from "../../../../core/plan/chain.ts";
import type { FittingSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { printLength } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import { zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { chainPath, leftOfPath } from "./chain-path.ts";
import type { Drawn } from "./drawn-shell.ts";
import { namePlaces } from "./feature-handles.ts";
import { type Fit, markAt, toScreen } from "./fit.ts";
import { fittingPlace } from "./fitting-handles.ts";
import { type Handle, onward, type Spot } from "./handle.ts";
import { sheetState } from "./sheet-state.ts";
import styles from "./sheets.module.css";

interface Props {
  readonly shell: ShellSpec;
  readonly drawn: Drawn;
  readonly fit: Fit;
  readonly chosen: string | null;
  /** Names make way for them. */
  readonly handles: readonly Handle[];
  /** Without the buttons that bring a feature's handles out. */
  readonly quiet: boolean;
}

/** The plan in ink: coping, rim, the features' treads from the deepest up, so that what is higher lies over what is lower. */
export function PlanDrawing({ shell, drawn, fit, chosen, handles, quiet }: Props) {
  const clip = useId();
  const { outline, blocks, flange } = drawn;
  const rim = chainPath(outline.chain);
  return (
    <>
      <g transform={planTurn(fit, drawn)}>
        <clipPath id={clip}>
          <path d={rim} />
        </clipPath>
        <path d={rim} className={styles.coping} style={{ strokeWidth: 2 * flange + 2 / fit.scale }} />
        <path d={rim} className={styles.flange} style={{ strokeWidth: 2 * flange }} />
        <path d={rim} className={styles.water} />
        <g clipPath={`url(#${clip})`}>
          {[...blocks].reverse().map((block) => (
            <path
              key={block.top}
              d={leftOfPath(block.footprint)}
              fillRule="evenodd"
              className={styles.tread}
              data-chosen={block.feature === chosen || undefined}
            />
          ))}
        </g>
        <path d={rim} className={styles.rim} />
        {shell.fittings.map((fitting) => (
          <FittingMark key={fitting.id} fitting={fitting} outline={outline} />
        ))}
      </g>
      {!quiet && <Names shell={shell} drawn={drawn} fit={fit} chosen={chosen} handles={handles} />}
    </>
  );
}

/** Lays what is drawn in the shell's plan onto the sheet, which shows the outline as its figures draw it. */
export const planTurn = ({ scale, left, top }: Fit, { moved }: Drawn): string =>
  `matrix(${scale} 0 0 ${-scale} ${left - scale * moved.x} ${top + scale * moved.y})`;

/** How deep a fitting in the wall is drawn, mm. */
const IN_WALL = 60;

/** A fitting in the plan: its opening in the floor, or its width along the wall. */
export function FittingMark({
  fitting,
  outline,
}: {
  readonly fitting: FittingSpec;
  readonly outline: Outline;
}) {
  const place = fittingPlace(outline, fitting);
  if (!place) return null;
  const { width, height } = fitting;
  return (
    <rect
      className={styles.fitting}
      x={-width / 2}
      y={place.wall ? -IN_WALL : -height / 2}
      width={width}
      height={place.wall ? IN_WALL : height}
      transform={`translate(${place.at.x} ${place.at.y}) rotate(${(place.turn * 180) / Math.PI})`}
    />
  );
}

/** Between the middle of a handle and what stands beside it, pixels. */
const CLEAR = 7;
/** How far beyond a feature and to the sides its name is tried, pixels. */
const BEYOND = [CLEAR, 2 * CLEAR, 4 * CLEAR];
const ASIDE = [0, 20, -20, 40, -40, 60, -60];

const isClear = (mark: Spot, at: Spot, half: Spot): boolean =>
  Math.abs(mark.x - at.x) > half.x + CLEAR || Math.abs(mark.y - at.y) > half.y + CLEAR;

/** Middles of a box beyond a place of the screen and to the sides from there, then ever further; `way` is one of the sheet. */
const past = ({ x, y }: Spot, way: Spot, half: Spot): Spot[] =>
  BEYOND.flatMap((beyond) =>
    ASIDE.map((aside) => {
      const off = beyond + Math.abs(way.x) * half.x + Math.abs(way.y) * half.y;
      return { x: x + off * way.x + aside * way.y, y: y - off * way.y + aside * way.x };
    }),
  );

/** The features by name and depth, each a button that brings its handles out. */
function Names({ shell, drawn, fit, chosen, handles }: Omit<Props, "quiet">) {
  const lengths = useSession((s) => s.lengths);
  const marks = handles.map((handle) => markAt(fit, handle));
  return shell.features.map((feature) => {
    const places = namePlaces(drawn.outline, drawn.blocks, feature);
    if (!places) return null;
    const depth = feature.kind === "steps" ? feature.treads[0].depth : feature.depth;
    const name = zoneName(feature.id);
    const on = feature.id === chosen;
    const half = { x: 5 + 3.3 * name.length, y: 16 };
    const onScreen = (spot: Spot) => toScreen(fit, onward(spot, drawn.moved, -1));
    const spots = [...places.on.map(onScreen), ...past(onScreen(places.end), places.way, half)];
    const at = spots.find((spot) => marks.every((mark) => isClear(mark, spot, half))) ?? spots[0];
    const toggle = () => sheetState.setState({ feature: on ? null : feature.id });
    return (
      // biome-ignore lint/a11y/useSemanticElements: a name within a drawing.
      <g
        key={feature.id}
        role="button"
        tabIndex={0}
        className={styles.name}
        data-chosen={on || undefined}
        aria-pressed={on}
        aria-label={words.drawing.plan.feature(name)}
        transform={`translate(${at.x} ${at.y})`}
        onClick={(event) => {
          event.stopPropagation();
          toggle();
        }}
        onKeyDown={(event) => {
          if (event.key !== "Enter" && event.key !== " ") return;
          event.preventDefault();
          toggle();
        }}
      >
        <rect x={-half.x} y={-half.y} width={2 * half.x} height={2 * half.y} rx="4" />
        <text y="-3">{name}</text>
        <text y="11" data-figures="" className={styles.small}>
          {printLength(depth, lengths)}
        </text>
      </g>
    );
  });
}
