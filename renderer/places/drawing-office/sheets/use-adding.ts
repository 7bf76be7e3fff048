import { type KeyboardEvent, useEffect, useRef } from "react";
import { useStore } from "zustand";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { useDesk } from "../../../desk.ts";
import { zoneName } from "../../../parts/names.ts";
import { takePoints } from "../../../scene/point-taker.ts";
import type { Aim } from "../../../tools/tool.ts";
import { words } from "../../../words.ts";
import type { Drawn } from "./drawn-shell.ts";
import { onward, type Spot } from "./handle.ts";
import { type Addable, offerAt, offersInTurn, putting } from "./placing.ts";
import { sheetState } from "./sheet-state.ts";

const turns: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/** Adding to the shell on the plan or in the scene: the place under the pointer, or one after the other by the arrow keys; a click or Enter puts it in. */
export function useAdding(shell: ShellSpec, drawn: Drawn | null) {
  const { project } = useDesk();
  const adding = useStore(sheetState, (s) => s.adding);
  const leave = () => sheetState.setState({ adding: null });
  const put = () => {
    const offer = sheetState.getState().adding?.offer;
    if (!offer) return;
    const { spec } = offer;
    leave();
    const edited = project.edit(words.steps.add(zoneName(spec.id)), putting(offer));
    if (!edited.ok) sheetState.setState({ fault: edited.problems.map(({ sentence }) => sentence).join(" ") });
    else sheetState.setState(offer.of === "feature" ? { feature: spec.id } : { fitting: spec.id });
  };
  /** `at` in the shell's own plan; `depth` below the rim where the shell itself is pointed at, mm. */
  const pointAt = (at: Spot, depth?: number) => {
    const { adding: now } = sheetState.getState();
    if (!now || !drawn) return;
    const offer = offerAt(shell, drawn.outline, now.kind, at, depth);
    if (JSON.stringify(offer) !== JSON.stringify(now.offer))
      sheetState.setState({ adding: { ...now, offer } });
  };
  const point = (spot: Spot) => drawn && pointAt(onward(spot, drawn.moved, 1));

  // While something is added, the shell in the scene is as good a place to point at as the plan.
  const latest = useRef({ pointAt, put });
  latest.current = { pointAt, put };
  const isAdding = adding !== null;
  useEffect(() => {
    if (!isAdding) return;
    const aimAt = ({ point: [x, y, z] }: Aim) => latest.current.pointAt({ x, y }, -z);
    return takePoints({
      point: (aim) => aim && aimAt(aim),
      click(aim) {
        aimAt(aim);
        latest.current.put();
      },
    });
  }, [isAdding]);
  return {
    adding,
    point,
    begin(kind: Addable) {
      const [offer] = drawn ? offersInTurn(shell, drawn.outline, kind) : [];
      if (offer) sheetState.setState({ adding: { kind, offer }, feature: null });
    },
    /** A click puts in what is offered at that very place. */
    click(spot: Spot) {
      point(spot);
      put();
    },
    /** Takes the keys of the whole sheet while something is added. */
    onKey(event: KeyboardEvent) {
      if (!adding || !drawn) return;
      const turn = turns[event.key];
      if (event.key === "Escape") leave();
      else if (event.key === "Enter") put();
      else if (turn !== undefined) {
        const offers = offersInTurn(shell, drawn.outline, adding.kind);
        const now = offers.findIndex((each) => JSON.stringify(each) === JSON.stringify(adding.offer));
        const next = now < 0 ? 0 : (now + turn + offers.length) % offers.length;
        sheetState.setState({ adding: { ...adding, offer: offers[next] } });
      } else return;
      event.preventDefault();
      event.stopPropagation();
    },
  };
}
