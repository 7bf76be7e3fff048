import { useMemo, useState } from "react";
import { Button, DialogTrigger, Heading, Input, Label, TextField } from "react-aria-components";
import { anotherSize, type ModelSize, sizeOfModel } from "../../../../core/shell/another-size.ts";
import { useProject, useSession } from "../../../desk.ts";
import { putOnDesk } from "../../../frame/made.ts";
import answers from "../../../parts/answers.module.css";
import type { Measure } from "../../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../../parts/figure-field.tsx";
import { Overlay } from "../../../parts/overlay.tsx";
import { words } from "../../../words.ts";
import styles from "./another-size.module.css";
import { type Settled, withSettled } from "./settling.ts";
import { nameInSize } from "./size-name.ts";
import { useTrial } from "./use-trial.ts";
import { WhatBecomes } from "./what-becomes.tsx";

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
  const [settled, setSettled] = useState<readonly Settled[]>([]);
  const made = useMemo(() => {
    const sized = size && anotherSize(project, size, name.trim());
    return sized?.ok ? { ...sized, project: withSettled(sized.project, settled) } : sized;
  }, [project, size, name, settled]);
  const changed =
    now && size && (["length", "width", "depth"] as const).some((key) => size[key] !== rounded(now)[key]);
  const tried = useTrial(made?.ok && changed ? made.project : null);
  const { trial } = tried;
  // What was settled for one size need not be right for another.
  const resize = (to: ModelSize) => {
    setSize(to);
    setSettled([]);
  };
  if (!size) return <p>{words.another.noOutline}</p>;
  const take = async () => {
    if (made?.ok && (await putOnDesk(made.project))) close();
  };
  return (
    <>
      <Heading slot="title">{words.another.title(project.name)}</Heading>
      <div className={styles.figures}>
        {(["length", "width", "depth"] as const).map((key) => (
          <SizeField key={key} which={key} size={size} onSize={resize} />
        ))}
        <TextField className={styles.name} value={name} onChange={setTyped}>
          <Label>{words.another.name}</Label>
          <Input />
        </TextField>
      </div>
      <details className={styles.rule} open={!changed}>
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
        {trial && made?.ok && (
          <WhatBecomes
            project={made.project}
            tried={{ ...tried, trial }}
            settled={settled}
            onSettle={setSettled}
          />
        )}
      </section>
      <div className={answers.answers}>
        <Button className={answers.answer} onPress={close}>
          {words.another.leave}
        </Button>
        <Button
          className={answers.answer}
          data-first
          isDisabled={
            !made?.ok || !trial || !tried.settled || trial.refusals.length > 0 || name.trim() === ""
          }
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
