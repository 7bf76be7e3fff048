import { useId } from "react";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { chainPath, leftOfPath } from "./chain-path.ts";
import { type Drawn, drawShell } from "./drawn-shell.ts";
import type { Fit } from "./fit.ts";
import type { Offer } from "./placing.ts";
import { FittingMark, planTurn } from "./plan-drawing.tsx";
import styles from "./sheets.module.css";

/** What is about to be put in, lit up where it would go. */
export function OfferDrawing(props: {
  readonly shell: ShellSpec;
  readonly drawn: Drawn;
  readonly fit: Fit;
  readonly offer: Offer;
}) {
  const { shell, drawn, fit, offer } = props;
  const clip = useId();
  return (
    <g transform={planTurn(fit, drawn)} className={styles.offer}>
      <clipPath id={clip}>
        <path d={chainPath(drawn.outline.chain)} />
      </clipPath>
      {offer.of === "fitting" ? (
        <FittingMark fitting={offer.spec} outline={drawn.outline} />
      ) : (
        <g clipPath={`url(#${clip})`}>
          {withOffer(shell, offer)
            ?.blocks.filter(({ feature }) => feature === offer.spec.id)
            .reverse()
            .map((block) => (
              <path key={block.top} d={leftOfPath(block.footprint)} fillRule="evenodd" />
            ))}
        </g>
      )}
    </g>
  );
}

/** Why what is offered would find no room in the plan; null where it would. */
export function misfitOf(shell: ShellSpec, offer: Offer): string | null {
  if (offer.of === "fitting") return null;
  const path = `shell.features[${shell.features.length}]`;
  const misfits = withOffer(shell, offer)?.misfits.filter((misfit) => misfit.path.startsWith(path)) ?? [];
  return misfits.length > 0 ? misfits.map(({ why }) => why).join("; ") : null;
}

let tried: { readonly shell: ShellSpec; readonly offer: Offer; readonly drawn: Drawn | null } | null = null;

/** The shell drawn with what is offered in it; the last trial is remembered. */
function withOffer(shell: ShellSpec, offer: Extract<Offer, { of: "feature" }>): Drawn | null {
  if (tried?.shell !== shell || tried.offer !== offer)
    tried = { shell, offer, drawn: drawShell({ ...shell, features: [...shell.features, offer.spec] }) };
  return tried.drawn;
}
