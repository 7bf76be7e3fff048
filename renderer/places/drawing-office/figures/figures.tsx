import { memo, useMemo } from "react";
import { toast } from "sonner";
import { z } from "zod";
import { wordsOf } from "../../../../core/project/allowed.ts";
import { branchFor } from "../../../../core/project/branch.ts";
import { formatPath } from "../../../../core/project/problem.ts";
import type { OutlineSpec } from "../../../../core/project/schema.ts";
import { useDesk, useResults, useSession } from "../../../desk.ts";
import { setting } from "../../../document/figure-path.ts";
import { Choice } from "../../../parts/choice.tsx";
import { measureOf } from "../../../parts/figure.ts";
import { FigureField } from "../../../parts/figure-field.tsx";
import { zoneName } from "../../../parts/names.ts";
import { wordsFor } from "../../../parts/refusal.ts";
import { words } from "../../../words.ts";
import { ofAnotherKind, outOfCorners } from "../reshaping.ts";
import styles from "./figures.module.css";
import { choiceName, labelAt, labelOf } from "./labels.ts";
import { ListOf, type Shown } from "./list-of.tsx";
import { NameChoice } from "./name-choice.tsx";
import { startingFootprint, startingOutline } from "./starting.ts";
import { useTaker } from "./use-taker.ts";

/**
 * The figures of a part of the project, each with the field that its schema calls for: limits, units and choices all come from
 * the schema. Redrawn only where the value itself changed.
 */
export const Figures = memo(function Figures({ schema, value, path, of }: Shown) {
  if (schema instanceof z.ZodOptional) {
    return value === undefined ? null : (
      <Figures schema={schema.unwrap()} value={value} path={path} of={of} />
    );
  }
  if (schema instanceof z.ZodNumber) return <Figure schema={schema} value={value} path={path} of={of} />;
  if (schema instanceof z.ZodBoolean) return <YesOrNo value={value} path={path} of={of} />;
  if (schema instanceof z.ZodEnum) return <OneOf schema={schema} value={value} path={path} of={of} />;
  if (schema instanceof z.ZodUnion) return <Branch schema={schema} value={value} path={path} of={of} />;
  if (schema instanceof z.ZodArray)
    return <ListOf each={Figures} schema={schema} value={value} path={path} of={of} />;
  if (schema instanceof z.ZodObject) {
    return Object.entries(schema.shape as Record<string, z.core.$ZodType>).map(([key, inner]) => (
      <Member
        key={key}
        schema={inner}
        value={(value as Record<string, unknown>)[key]}
        path={path}
        of={of}
        last={key}
      />
    ));
  }
  if (schema instanceof z.ZodTuple) {
    return (
      <div className={styles.pair} data-two={schema.def.items.length === 2 || undefined}>
        {schema.def.items.map((inner, i) => (
          <Member
            // biome-ignore lint/suspicious/noArrayIndexKey: the entries of a tuple are their places.
            key={i}
            schema={inner}
            value={(value as readonly unknown[])[i]}
            path={path}
            of={of}
            last={i}
          />
        ))}
      </div>
    );
  }
  if (schema instanceof z.ZodString) return <NameChoice value={value} path={path} of={of} />;
  return null;
});

/** One member of an object or tuple, with its path made once. */
function Member(props: Shown & { readonly last: string | number }) {
  const { schema, value, path, of, last } = props;
  const own = useMemo(() => [...path, last], [path, last]);
  // Names by which other parts of the file speak of this one are not for changing here.
  if (last === "id" || last === "kind") return null;
  const inner = schema instanceof z.ZodOptional ? schema.unwrap() : schema;
  const grouped =
    typeof last === "string" &&
    (inner instanceof z.ZodObject ||
      inner instanceof z.ZodArray ||
      isKinds(inner) ||
      inner instanceof z.ZodTuple);
  const figures = <Figures schema={schema} value={value} path={own} of={of} />;
  if (!grouped || value === undefined) return figures;
  return (
    <fieldset className={styles.group}>
      <legend>{labelOf(last)}</legend>
      {figures}
    </fieldset>
  );
}

const isKinds = (schema: z.core.$ZodType): boolean =>
  schema instanceof z.ZodUnion && schema.options.some((option) => option instanceof z.ZodObject);

function Figure({ schema, value, path, of }: Shown & { readonly schema: z.ZodNumber }) {
  const lengths = useSession((s) => s.lengths);
  const measure = useMemo(() => measureOf(schema), [schema]);
  const label = labelAt(path);
  const taker = useTaker(path, `${label} of ${of}`);
  const at = formatPath(path);
  const wrong = useResults(
    (r) =>
      r.refusals
        .filter((refusal) => refusal.path === at)
        .map((refusal) => wordsFor(refusal, lengths))
        .join(" ") || null,
  );
  return (
    <FigureField
      label={label}
      value={value as number}
      measure={measure}
      lengths={lengths}
      taker={taker}
      wrong={wrong}
      name={at}
    />
  );
}

function YesOrNo({ value, path, of }: Omit<Shown, "schema">) {
  const { project } = useDesk();
  const label = labelAt(path);
  return (
    <Choice
      label={label}
      options={(["yes", "no"] as const).map((id) => ({ id, name: words.figure[id] }))}
      chosen={value ? "yes" : "no"}
      onChoose={(next) =>
        project.edit(words.steps.change(`${label} of ${of}`), setting(path, next === "yes"))
      }
    />
  );
}

function OneOf({ schema, value, path, of }: Shown & { readonly schema: z.ZodEnum }) {
  const { project } = useDesk();
  const label = labelAt(path);
  return (
    <Choice
      label={label}
      options={wordsOf(schema).map((id) => ({ id, name: choiceName(id) }))}
      chosen={value as string}
      onChoose={(next) => project.edit(words.steps.change(`${label} of ${of}`), setting(path, next))}
    />
  );
}

/** A part of the project that may be of several kinds: which one, then its figures. */
function Branch({ schema, value, path, of }: Shown & { readonly schema: z.ZodUnion }) {
  const branch = branchFor(schema, value);
  if (!branch) return null;
  return (
    <>
      {schema instanceof z.ZodDiscriminatedUnion && (
        <KindChoice schema={schema} value={value as { readonly kind: string }} path={path} of={of} />
      )}
      <Figures schema={branch} value={value} path={path} of={of} />
    </>
  );
}

function KindChoice(
  props: Shown & { readonly schema: z.ZodUnion; readonly value: { readonly kind: string } },
) {
  const { schema, value, path, of } = props;
  const { project } = useDesk();
  const key = path[path.length - 1];
  const kinds = schema.options.flatMap((option) =>
    option instanceof z.ZodObject ? wordsOf(option.shape.kind as z.core.$ZodType) : [],
  );
  const starts = startsOf(key);
  if (!starts) return null;
  return (
    <Choice
      label={labelOf("kind")}
      options={kinds.map((id) => ({ id, name: choiceName(id) }))}
      chosen={value.kind}
      onChoose={(kind) => {
        const now = project.state.getState().project;
        const start = starts(kind, now.shell);
        const step = words.steps.change(`kind of ${of}`);
        if (key !== "outline") project.edit(step, setting(path, start));
        else if (project.edit(step, ofAnotherKind(now, start as OutlineSpec)).ok) {
          const moved = outOfCorners(now.shell, project.state.getState().project.shell);
          if (moved.length > 0) toast(words.drawing.outOfCorners(moved.map(zoneName)));
        }
      }}
    />
  );
}

type Starts = (kind: string, shell: Parameters<typeof startingOutline>[1]) => unknown;

/** Figures to go on from when another kind is chosen; null where a kind is not for changing. */
function startsOf(key: string | number): Starts | null {
  if (key === "outline") return startingOutline as Starts;
  if (key === "place") return startingFootprint as Starts;
  if (key === "edge") return (kind) => edges[kind];
  return null;
}

/** Practice. */
const edges: Readonly<Record<string, unknown>> = {
  flat: { kind: "flat" },
  rolled: { kind: "rolled", radius: 25 },
  dropped: { kind: "dropped", radius: 15, drop: 50 },
};
