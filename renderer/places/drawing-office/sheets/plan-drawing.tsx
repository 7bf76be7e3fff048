import { useId } from "react";
import type { ShellSpec } from "../../../../core/project/schema.ts";
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
}

/** The plan in ink: coping, rim, the features' treads from the deepest up, so that what is higher lies over what is lower. */
export function PlanDrawing({ shell, drawn, fit, chosen }: Props) {
  const clip = useId();
  const { outline, moved, blocks, flange } = drawn;
  const rim = chainPath(outline.chain);
  const turn = `matrix(${fit.scale} 0 0 ${-fit.scale} ${fit.left - fit.scale * moved.x} ${fit.top + fit.scale * moved.y})`;
  return (
    <>
      <g transform={turn}>
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
        {shell.fittings.map((fitting) => {
          const place = fittingPlace(outline, fitting);
          if (!place) return null;
          const { width, height } = fitting;
          const deep = place.wall ? 60 : height;
          return (
            <rect
              key={fitting.id}
              className={styles.fitting}
              x={-width / 2}
              y={place.wall ? -deep : -deep / 2}
              width={width}
              height={deep}
              transform={`translate(${place.at.x} ${place.at.y}) rotate(${(place.turn * 180) / Math.PI})`}
            />
          );
        })}
      </g>
      <Names shell={shell} drawn={drawn} fit={fit} chosen={chosen} />
    </>
  );
}

/** The features by name and depth, each a button that brings its handles out. */
function Names({ shell, drawn, fit, chosen }: Props) {
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
        onClick={toggle}
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
