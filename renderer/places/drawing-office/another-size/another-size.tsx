import { useEffect, useMemo, useState } from "react";
import { Button, DialogTrigger, Heading, Input, Label, TextField } from "react-aria-components";
import { anotherSize, type ModelSize, sizeOfModel } from "../../../../core/shell/another-size.ts";
import { useProject, useSession } from "../../../desk.ts";
import { putOnDesk } from "../../../frame/made.ts";
import answers from "../../../parts/answers.module.css";
import type { Measure } from "../../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../../parts/figure-field.tsx";
import { Overlay } from "../../../parts/overlay.tsx";
import { tell } from "../../../parts/tell.ts";
import { words } from "../../../words.ts";
import styles from "./another-size.module.css";
import { nameInSize } from "./size-name.ts";
import { type Trial, tryProject } from "./size-trial.ts";
import { WhatBecomes } from "./what-becomes.tsx";

/** A trial begins this long after the last change of a figure, ms. */
const PAUSE_MS = 400;

/** The button of the drawing office, and the sheet on which another size of the model is asked for and looked at first. */
export function AnotherSize() {
  return (
    <div className={styles.ask}>
      <DialogTrigger>
        <Button className={answers.answer}>{words.another.open}</Button>
        <Overlay className={styles.sheet} dismissable>
          {({ close }) => <SizeSheet close={close} />}
        </Overlay>
      </DialogTrigger>
    </div>
  );
}

const measures: Readonly<Record<keyof ModelSize, Measure>> = {
  length: { kind: "length", unit: "", min: 3000, max: 15_000, step: 50 },
  width: { kind: "length", unit: "", min: 2000, max: 6000, step: 50 },
  depth: { kind: "length", unit: "", min: 600, max: 2800, step: 10 },
};

function SizeSheet({ close }: { readonly close: () => void }) {
  const project = useProject((s) => s.history.project);
  const now = useMemo(() => sizeOfModel(project.shell), [project]);
  const [size, setSize] = useState<ModelSize | null>(now && rounded(now));
  const [typed, setTyped] = useState<string | null>(null);
  const name = typed ?? nameInSize(project.name, size?.length ?? 0);
  const made = useMemo(() => size && anotherSize(project, size, name.trim()), [project, size, name]);
  const changed =
    now && size && (["length", "width", "depth"] as const).some((key) => size[key] !== rounded(now)[key]);
  const trial = useTrial(made?.ok && changed ? made.project : null, size);
  if (!size) return <p>{words.another.noOutline}</p>;
  const take = async () => {
    if (made?.ok && (await putOnDesk(made.project))) close();
  };
  return (
    <>
      <Heading slot="title">{words.another.title(project.name)}</Heading>
      <div className={styles.figures}>
        {(["length", "width", "depth"] as const).map((key) => (
          <SizeField key={key} which={key} size={size} onSize={setSize} />
        ))}
        <TextField className={styles.name} value={name} onChange={setTyped}>
          <Label>{words.another.name}</Label>
          <Input />
        </TextField>
      </div>
      <details className={styles.rule} open>
        <summary>{words.another.rule}</summary>
        <ul>
          {words.another.rules.map((each) => (
            <li key={each}>{each}</li>
          ))}
        </ul>
      </details>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long list is scrolled by keys. */}
      <section className={styles.becomes} aria-live="polite" aria-label={words.another.becomes} tabIndex={0}>
        {made && !made.ok && made.problems.map((problem) => <p key={problem}>{problem}</p>)}
        {made?.ok && !changed && <p className={styles.soft}>{words.another.same}</p>}
        {made?.ok && changed && !trial && <p className={styles.soft}>{words.another.trying}</p>}
        {trial && <WhatBecomes trial={trial} zones={project.layup.length} />}
      </section>
      <div className={answers.answers}>
        <Button className={answers.answer} onPress={close}>
          {words.another.leave}
        </Button>
        <Button
          className={answers.answer}
          data-first
          isDisabled={!made?.ok || !trial || trial.refusals.length > 0 || name.trim() === ""}
          onPress={() => void take()}
        >
          {words.another.take}
        </Button>
      </div>
    </>
  );
}

const rounded = ({ length, width, depth }: ModelSize): ModelSize => ({
  length: Math.round(length),
  width: Math.round(width),
  depth: Math.round(depth),
});

function SizeField(props: {
  readonly which: keyof ModelSize;
  readonly size: ModelSize;
  readonly onSize: (size: ModelSize) => void;
}) {
  const { which, size, onSize } = props;
  const lengths = useSession((s) => s.lengths);
  const taker: FigureTaker = {
    take(value) {
      onSize({ ...size, [which]: value });
      return null;
    },
    drag: () => ({
      show(value) {
        onSize({ ...size, [which]: value });
        return null;
      },
      keep() {},
      drop: () => onSize(size),
    }),
  };
  return (
    <FigureField
      label={words.another.figures[which]}
      value={size[which]}
      measure={measures[which]}
      lengths={lengths}
      taker={taker}
      name={`another.${which}`}
    />
  );
}

/** What becomes of a project in another size, tried a moment after the last change of its figures; null while it is tried. */
function useTrial(project: Parameters<typeof tryProject>[0] | null, size: ModelSize | null): Trial | null {
  const [trial, setTrial] = useState<{ readonly of: ModelSize; readonly trial: Trial } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another name makes no other shell.
  useEffect(() => {
    if (!project || !size) return;
    let leave = () => {};
    const timer = setTimeout(() => {
      leave = tryProject(project, (done) => setTrial({ of: size, trial: done }), tell);
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
      leave();
    };
  }, [size, project === null]);
  return project && trial && trial.of === size ? trial.trial : null;
}
