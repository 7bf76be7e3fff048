import { Maximize2, ZoomIn, ZoomOut } from "lucide-react";
import { useEffect, useRef, useState } from "react";
import { useStore } from "zustand";
import { useDesk, useResults, useSession } from "../../../desk.ts";
import { Choice } from "../../../parts/choice.tsx";
import { IconButton } from "../../../parts/icon-button.tsx";
import { faceName, headed } from "../../../parts/names.ts";
import { OfferWords } from "../../../parts/offer-words.tsx";
import { words } from "../../../words.ts";
import foot from "../../foot.module.css";
import { RimFields } from "./rim-fields.tsx";
import styles from "./tape.module.css";
import { TapeBoard } from "./tape-board.ts";
import { followKeys } from "./tape-keys.ts";
import { followPointer } from "./tape-pointer.ts";
import { followReadout } from "./tape-readout.ts";
import { tapeState } from "./tape-state.ts";

/** Along the foot of the lay-up floor: the wall unrolled, or a level face laid flat, linked with the scene both ways. */
export function Tape() {
  const desk = useDesk();
  const canvas = useRef<HTMLCanvasElement>(null);
  const readout = useRef<HTMLOutputElement>(null);
  const lines = useRef<HTMLDivElement>(null);
  const laying = useSession((s) => s.tool !== null);
  const [board, setBoard] = useState<TapeBoard | null>(null);
  const empty = useResults((r) => r.tape === null);
  useEffect(() => {
    if (!canvas.current || !readout.current || !lines.current) return;
    const made = new TapeBoard(canvas.current, desk);
    const leave = [
      followPointer(made),
      followKeys(made),
      followReadout(made, readout.current, lines.current),
    ];
    setBoard(made);
    return () => {
      for (const each of leave) each();
      made.end();
      setBoard(null);
    };
  }, [desk]);
  return (
    <section className={foot.foot} aria-label={words.tape.title}>
      <Head board={board} />
      <div className={foot.paper}>
        <div
          className={styles.keys}
          role="application"
          aria-label={words.tape.label}
          aria-describedby="tape-keys"
        >
          <canvas ref={canvas} className={styles.canvas} tabIndex={0} aria-label={words.tape.label} />
        </div>
        <p id="tape-keys" className="for-readers">
          {words.tape.keys}
        </p>
        <output ref={readout} className={styles.readout} data-figures="" hidden>
          <div ref={lines} />
          {laying && <OfferWords />}
        </output>
        {empty && <p className={styles.empty}>{words.tape.empty}</p>}
      </div>
    </section>
  );
}

function Head({ board }: { readonly board: TapeBoard | null }) {
  const shown = useStore(tapeState, (s) => s.shown);
  const faces = useResults((r) => r.tape?.faces);
  const known = faces?.some(({ id }) => id === shown) ? shown : "wall";
  const options = [
    { id: "wall", name: words.tape.wall },
    ...(faces ?? []).map(({ id }) => ({ id, name: headed(faceName(id)) })),
  ];
  return (
    <header className={foot.head}>
      <h2>{words.tape.title}</h2>
      <Choice
        label={words.tape.shown}
        options={options}
        chosen={known}
        onChoose={(id) => tapeState.setState({ shown: id })}
        narrow
      />
      <p className={foot.hint}>{known === "wall" ? words.tape.hint : words.tape.faceHint}</p>
      {known === "wall" && <Chosen />}
      <div className={styles.zoom}>
        <IconButton label={words.tape.further} onPress={() => board?.zoom(0.67)}>
          <ZoomOut />
        </IconButton>
        <IconButton label={words.tape.nearer} onPress={() => board?.zoom(1.5)}>
          <ZoomIn />
        </IconButton>
        <IconButton label={words.tape.fit} onPress={() => board?.fit()}>
          <Maximize2 />
        </IconButton>
      </div>
    </header>
  );
}

/** The distances along the rim of the one zone that is chosen, to be typed. */
function Chosen() {
  const id = useSession((s) =>
    s.selected.length === 1 && s.selected[0].kind === "zone" ? s.selected[0].id : null,
  );
  const locked = useSession((s) => id !== null && s.locked.has(id));
  return id === null || locked ? null : <RimFields key={id} id={id} />;
}
