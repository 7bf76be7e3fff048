import { useCallback, useEffect, useRef, useState } from "react";
import { Button, Disclosure, DisclosurePanel, Heading } from "react-aria-components";
import { useStore } from "zustand";
import { shell as shellSchema } from "../../../core/project/shell-schema.ts";
import { useProject } from "../../desk.ts";
import { words } from "../../words.ts";
import { ShellSummary } from "../shell-summary.tsx";
import { AnotherSize } from "./another-size/another-size.tsx";
import styles from "./card.module.css";
import { Figures } from "./figures/figures.tsx";
import { sheetState } from "./sheets/sheet-state.ts";

const sections = ["outline", "floor", "wall", "radii", "features", "coping", "fittings"] as const;
type SectionName = (typeof sections)[number];

/** Keys of the shell in each section. */
const keysOf: Partial<Record<SectionName, readonly (keyof typeof shellSchema.shape)[]>> = {
  wall: ["draftDeg", "waterLine"],
};
/** Sections that stand open at first. */
const open: readonly SectionName[] = ["outline", "floor"];

/** Paths are made once, so that fields whose value stays are not drawn again. */
const paths = Object.fromEntries(Object.keys(shellSchema.shape).map((key) => [key, ["shell", key]]));

/** The card of the drawing office: what the shell measures, and every figure of it as a field. */
export function DrawingOfficeCard() {
  const card = useRef<HTMLDivElement>(null);
  const [shown, setShown] = useState(open);
  const bring = useCallback((section: SectionName, id: string | null) => {
    if (id === null) return;
    setShown((now) => (now.includes(section) ? now : [...now, section]));
    const frame = requestAnimationFrame(() =>
      card.current?.querySelector(`[data-entry="${id}"]`)?.scrollIntoView({ block: "nearest" }),
    );
    return () => cancelAnimationFrame(frame);
  }, []);
  // The figures of the feature that is worked on in the plan, and of a fitting put in there, are brought into sight, once their section has opened.
  const feature = useStore(sheetState, (s) => s.feature);
  const fitting = useStore(sheetState, (s) => s.fitting);
  useEffect(() => bring("features", feature), [bring, feature]);
  useEffect(() => bring("fittings", fitting), [bring, fitting]);
  return (
    <div ref={card}>
      <ShellSummary />
      <AnotherSize />
      {sections.map((name) => (
        <Disclosure
          key={name}
          className={styles.section}
          isExpanded={shown.includes(name)}
          onExpandedChange={(on) =>
            setShown((now) => (on ? [...now, name] : now.filter((each) => each !== name)))
          }
        >
          <Heading className={styles.heading}>
            <Button slot="trigger" className={styles.trigger}>
              <svg viewBox="0 0 10 10" aria-hidden="true">
                <path d="M3 1L7 5L3 9" />
              </svg>
              {words.drawing.sections[name]}
            </Button>
          </Heading>
          <DisclosurePanel className={styles.panel}>
            {(keysOf[name] ?? [name as keyof typeof shellSchema.shape]).map((key) => (
              <Section key={key} name={key} />
            ))}
          </DisclosurePanel>
        </Disclosure>
      ))}
    </div>
  );
}

function Section({ name }: { readonly name: keyof typeof shellSchema.shape }) {
  const value = useProject((s) => s.project.shell[name]);
  return (
    <Figures schema={shellSchema.shape[name]} value={value} path={paths[name]} of={words.drawing.of[name]} />
  );
}
