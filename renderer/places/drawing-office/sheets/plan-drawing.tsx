import { useId } from "react";
import type { Outline } from "../../../../core/plan/chain.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import type { FittingSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { printLength } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import { letterScale } from "../../../look/letter-scale.ts";
import { faceName, zoneName } from "../../../parts/names.ts";
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
      <Sides drawn={drawn} fit={fit} handles={handles} />
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
/** How far beyond a feature and to the sides its name is tried, pixels: near enough to each other that a gap is not missed. */
const BEYOND = Array.from({ length: 15 }, (_, step) => CLEAR + 4 * step);
const ASIDE = Array.from({ length: 25 }, (_, step) => (step % 2 === 0 ? -4 : 4) * step);

const isApart = (a: Spot, b: Spot, by: Spot): boolean =>
  Math.abs(a.x - b.x) > by.x || Math.abs(a.y - b.y) > by.y;

const isClear = (mark: Spot, at: Spot, half: Spot): boolean =>
  isApart(mark, at, { x: half.x + CLEAR, y: half.y + CLEAR });

/** Middles of a box beyond a place of the screen and to the sides from there, then ever further; `way` is one of the sheet. */
const past = ({ x, y }: Spot, way: Spot, half: Spot): Spot[] =>
  BEYOND.flatMap((beyond) =>
    ASIDE.map((aside) => {
      const off = beyond + Math.abs(way.x) * half.x + Math.abs(way.y) * half.y;
      return { x: x + off * way.x + aside * way.y, y: y - off * way.y + aside * way.x };
    }),
  );

/** Parts of a side at which its name is tried, from the middle on. */
const ALONG = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
/** From the coping to the middle of a side's name, pixels. */
const OUT = 8;

/** The sides of the rim by the names that lists and sentences call them by, outside along the coping. */
function Sides({ drawn, fit, handles }: Pick<Props, "drawn" | "fit" | "handles">) {
  const { outline, moved, flange } = drawn;
  const marks = handles.map((handle) => markAt(fit, handle));
  const straight = outline.runs.filter(({ kind }) => kind === "straight");
  return (straight.length > 0 ? straight : outline.runs).map(({ id, from, length }) => {
    const name = faceName(id);
    const long = 3 * name.length;
    if (2 * long > length * fit.scale) return null;
    const spots = ALONG.map((part) => {
      const { x, y, tx, ty } = pointAt(outline.chain, from + part * length);
      const on = toScreen(fit, onward({ x, y }, moved, -1));
      const out = flange * fit.scale + OUT;
      const half = { x: Math.abs(tx) * long + Math.abs(ty) * 6, y: Math.abs(ty) * long + Math.abs(tx) * 6 };
      return { at: { x: on.x + out * ty, y: on.y + out * tx }, half, turn: upright(-ty / (tx || 1e-9)) };
    });
    const spot = spots.find(({ at, half }) => marks.every((mark) => isClear(mark, at, half)));
    return (
      spot && (
        <text
          key={id}
          className={styles.side}
          data-side={id}
          dy="0.35em"
          transform={`translate(${spot.at.x} ${spot.at.y}) rotate(${spot.turn})`}
        >
          {name}
        </text>
      )
    );
  });
}

/** The turn of words along a line of so much slope on the screen, in degrees: never on their head. */
const upright = (slope: number): number => {
  const turn = (Math.atan(slope) * 180) / Math.PI;
  return turn > 89.9 ? -90 : turn;
};

/** The features by name and depth, each a button that brings its handles out. */
function Names({ shell, drawn, fit, chosen, handles }: Omit<Props, "quiet">) {
  const lengths = useSession((s) => s.lengths);
  const marks = handles.map((handle) => markAt(fit, handle));
  const letters = letterScale();
  const taken: { readonly at: Spot; readonly half: Spot }[] = [];
  return shell.features.map((feature) => {
    const places = namePlaces(drawn.outline, drawn.blocks, feature);
    if (!places) return null;
    const depth = feature.kind === "steps" ? feature.treads[0].depth : feature.depth;
    const name = zoneName(feature.id);
    const depthWords = printLength(depth, lengths);
    const on = feature.id === chosen;
    const half = { x: letters * (5 + 3.3 * Math.max(name.length, depthWords.length)), y: 16 * letters };
    const onScreen = (spot: Spot) => toScreen(fit, onward(spot, drawn.moved, -1));
    const spots = [...places.on.map(onScreen), ...past(onScreen(places.end), places.way, half)];
    const isFree = (spot: Spot) =>
      taken.every(({ at, half: its }) => isApart(at, spot, { x: half.x + its.x, y: half.y + its.y }));
    const at =
      spots.find((spot) => isFree(spot) && marks.every((mark) => isClear(mark, spot, half))) ??
      spots.find(isFree) ??
      spots[0];
    taken.push({ at, half });
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
        <text y={-3 * letters}>{name}</text>
        <text y={11 * letters} data-figures="" className={styles.small}>
          {depthWords}
        </text>
      </g>
    );
  });
}
