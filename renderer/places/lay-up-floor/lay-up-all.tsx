import { useEffect, useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { useStore } from "zustand";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { useDesk, useProject, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { Choice } from "../../parts/choice.tsx";
import { headed, zoneName } from "../../parts/names.ts";
import { asRead } from "../../parts/refusal.ts";
import { planLayUp, taking, type Way, ways } from "../../tools/lay-up-all.ts";
import { words } from "../../words.ts";
import type { Tried } from "../../worker/trials.ts";
import { tried } from "./acts.ts";
import styles from "./bar.module.css";
import { Panel } from "./panel.tsx";

/** What the house rules would lay, drawn on the shell and listed with what would go, before it is taken. */
export function LayUpAll({ onLeave }: { readonly onLeave: () => void }) {
  const { project, trials, hand } = useDesk();
  const now = useProject((s) => s.history.project);
  const [wanted, setWanted] = useState<readonly ZoneSpec[] | null>(null);
  const [way, setWay] = useState<Way>("missing");
  useEffect(() => {
    let open = true;
    trials.automatic(now).then((zones) => open && setWanted(zones));
    return () => {
      open = false;
    };
  }, [trials, now]);
  const plan = useMemo(() => wanted && planLayUp(now.layup, wanted, way), [now, wanted, way]);
  useEffect(() => {
    if (plan) hand.offerAll(words.floor.all.name, plan.comes);
    return () => hand.take(null);
  }, [hand, plan]);
  const offer = useStore(hand.offer, (s) => s.offer);
  const comesTo = offer?.zones === plan?.comes ? offer?.tried : null;
  const take = () => {
    if (!plan || !tried(project.edit(words.floor.all.step, taking(plan)))) return;
    session.setState({ selected: [] });
    onLeave();
  };
  const idle = plan !== null && plan.comes.length + plan.goes.length === 0;
  return (
    <Panel onLeave={onLeave}>
      <Choice
        label={words.floor.all.how}
        options={ways.map((id) => ({ id, name: words.floor.all.ways[id] }))}
        chosen={way}
        onChoose={setWay}
      />
      <div className={styles.changes} role="status">
        {plan === null && <p>{words.floor.all.working}</p>}
        {idle && <p>{words.floor.all.nothing}</p>}
        {plan && (
          <Names title={words.floor.all.comes(plan.comes.length)} zones={plan.comes} tried={comesTo ?? []} />
        )}
        {plan && <Names title={words.floor.all.goes(plan.goes.length)} zones={plan.goes} lit />}
      </div>
      <div className={styles.answers}>
        <Button onPress={onLeave}>{words.floor.all.leave}</Button>
        <Button className={styles.first} onPress={take} isDisabled={plan === null || idle} autoFocus>
          {words.floor.all.take}
        </Button>
      </div>
    </Panel>
  );
}

function Names(props: {
  readonly title: string;
  readonly zones: readonly ZoneSpec[];
  readonly lit?: boolean;
  /** What they come to, as far as that is known: what there is to look at is told before they are taken. */
  readonly tried?: readonly Tried[];
}) {
  const { title, zones, lit = false, tried = [] } = props;
  const lengths = useSession((s) => s.lengths);
  if (zones.length === 0) return null;
  return (
    <section>
      <h3>{title}</h3>
      <ul>
        {zones.map(({ id }, i) => (
          <li
            key={id}
            onPointerEnter={() => lit && session.setState({ hovered: { kind: "zone", id } })}
            onPointerLeave={() => lit && session.setState({ hovered: null })}
          >
            {headed(zoneName(id))}
            {looksOf(tried[i]).map((look) => (
              <p key={look} className={styles.look}>
                {asRead(look, lengths)}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}

const looksOf = (tried: Tried | undefined): readonly string[] =>
  !tried ? [] : tried.ok ? tried.zone.doubts : [tried.why];
