import { useId } from "react";
import type { Outline } from "../../../../core/plan/chain.ts";
import type { FittingSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { printLength } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import { zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { chainPath, leftOfPath } from "./chain-path.ts";
import type { Drawn } from "./drawn-shell.ts";
import { namePlace } from "./feature-handles.ts";
import { type Fit, toScreen } from "./fit.ts";
import { fittingPlace } from "./fitting-handles.ts";
import { onward } from "./handle.ts";
import { sheetState } from "./sheet-state.ts";
import styles from "./sheets.module.css";

interface Props {
  readonly shell: ShellSpec;
  readonly drawn: Drawn;
  readonly fit: Fit;
  readonly chosen: string | null;
  /** Without the buttons that bring a feature's handles out. */
  readonly quiet: boolean;
}

/** The plan in ink: coping, rim, the features' treads from the deepest up, so that what is higher lies over what is lower. */
export function PlanDrawing({ shell, drawn, fit, chosen, quiet }: Props) {
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
      {!quiet && <Names shell={shell} drawn={drawn} fit={fit} chosen={chosen} />}
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

/** The features by name and depth, each a button that brings its handles out. */
function Names({ shell, drawn, fit, chosen }: Omit<Props, "quiet">) {
  const lengths = useSession((s) => s.lengths);
  return shell.features.map((feature) => {
    const place = namePlace(drawn.outline, drawn.blocks, feature);
    if (!place) return null;
    const at = toScreen(fit, onward(place, drawn.moved, -1));
    const depth = feature.kind === "steps" ? feature.treads[0].depth : feature.depth;
    const name = zoneName(feature.id);
    const on = feature.id === chosen;
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
        <rect x={-5 - 3.3 * name.length} y="-16" width={10 + 6.6 * name.length} height="32" rx="4" />
        <text y="-3">{name}</text>
        <text y="11" data-figures="" className={styles.small}>
          {printLength(depth, lengths)}
        </text>
      </g>
    );
  });
}
