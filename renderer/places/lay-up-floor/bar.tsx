import { useEffect, useRef, useState } from "react";
import { Button, ListBox, ListBoxItem, ToggleButton, Toolbar } from "react-aria-components";
import { useDesk, useResults, useSession } from "../../desk.ts";
import { session, type ToolName, tools } from "../../document/session.ts";
import type { Measure } from "../../parts/figure.ts";
import { FigureField } from "../../parts/figure-field.tsx";
import { headed } from "../../parts/names.ts";
import { OfferWords } from "../../parts/offer-words.tsx";
import type { Place } from "../../tools/tool.ts";
import { words } from "../../words.ts";
import styles from "./bar.module.css";
import { HelpSheet } from "./help-sheet.tsx";
import { LayUpAll } from "./lay-up-all.tsx";
import { Panel } from "./panel.tsx";
import { useFloorKeys } from "./use-floor-keys.ts";

/** The tools of the lay-up floor, what the one in hand does, and where it may lay, by name. */
export function LayUpFloorBar() {
  const tool = useSession((s) => s.tool);
  const { hand } = useDesk();
  const [named, setNamed] = useState(false);
  const [all, setAll] = useState(false);
  const [help, setHelp] = useState(false);
  const layUpAll = () => {
    session.setState({ tool: null });
    setAll(true);
  };
  useFloorKeys({
    byName: () => session.getState().tool !== null && setNamed(true),
    layUpAll,
    help: () => setHelp(true),
  });
  useEffect(() => {
    if (tool) {
      hand.prepare();
      setAll(false);
    } else setNamed(false);
  }, [tool, hand]);
  return (
    <div className={styles.bar}>
      <Toolbar className={styles.tools} aria-label={words.floor.tools.label} data-over="head">
        {[null, ...tools].map((name) => (
          <ToggleButton key={name} isSelected={tool === name && !all} onChange={() => take(name)}>
            {words.floor.tools[name ?? "choose"]}
          </ToggleButton>
        ))}
        <ToggleButton isSelected={all} onChange={(on) => (on ? layUpAll() : setAll(false))}>
          {words.floor.all.name}
        </ToggleButton>
        <Button aria-label={words.floor.help.title} onPress={() => setHelp(true)}>
          ?
        </Button>
      </Toolbar>
      {help && <HelpSheet onLeave={() => setHelp(false)} />}
      <p className={styles.hint}>
        {words.floor.hints[tool ?? "choose"]}
        {tool && (
          <Button aria-expanded={named} onPress={() => setNamed(!named)}>
            {words.floor.byName}
          </Button>
        )}
      </p>
      {all && <LayUpAll onLeave={() => setAll(false)} />}
      {tool === "free-band" && <Brush />}
      {tool && named && <Where tool={tool} onLeave={() => setNamed(false)} />}
    </div>
  );
}

const brushMeasure: Measure = { kind: "length", unit: "", min: 30, max: 2000, step: 10 };

/** The width of the brush for free bands. */
function Brush() {
  const brush = useSession((s) => s.brush);
  const lengths = useSession((s) => s.lengths);
  const put = (next: number) => {
    session.setState({ brush: next });
    return null;
  };
  const taker = {
    take: put,
    drag: () => ({ show: put, keep: () => {}, drop: () => put(brush) }),
  };
  return (
    <div className={styles.brush}>
      <FigureField
        label={words.floor.brush}
        value={brush}
        measure={brushMeasure}
        lengths={lengths}
        taker={taker}
        name="brush"
      />
    </div>
  );
}

const take = (tool: ToolName | null) => session.setState({ tool, ...(tool && { selected: [] }) });

/** Every place that the tool can lay on: arrows offer one, Enter lays it. */
function Where({ tool, onLeave }: { readonly tool: ToolName; readonly onLeave: () => void }) {
  const { hand } = useDesk();
  const shell = useResults((r) => r.shell);
  const lines = useResults((r) => r.lines);
  const [places, setPlaces] = useState<readonly Place[]>([]);
  const [chosen, setChosen] = useState<string | null>(null);
  const list = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the places hang on the tool, the shell and its lines.
  useEffect(() => {
    let open = true;
    hand.places().then((found) => open && setPlaces(found));
    return () => {
      open = false;
      hand.take(null);
    };
  }, [hand, tool, shell, lines]);
  useEffect(() => {
    // Places that come anew, as the shell's lines do, leave the one that is chosen in focus: Enter lays it.
    if (places.length > 0 && !list.current?.contains(document.activeElement)) list.current?.focus();
  }, [places]);
  const offer = (id: string | null) => {
    setChosen(id);
    const place = places.find((each) => each.id === id) ?? null;
    hand.take(place);
    session.setState({ hovered: place?.lights ?? null });
  };
  return (
    <Panel onLeave={onLeave}>
      <ListBox
        ref={list}
        aria-label={words.floor.where(words.floor.tools[tool])}
        className={styles.list}
        selectionMode="single"
        selectionBehavior="replace"
        escapeKeyBehavior="none"
        selectedKeys={chosen === null ? [] : [chosen]}
        onSelectionChange={(keys) => {
          const [id] = keys === "all" ? [] : [...keys];
          offer(id === undefined ? null : String(id));
        }}
        onAction={(id) => {
          offer(String(id));
          void hand.lay();
        }}
      >
        {places.map((place) => (
          <ListBoxItem key={place.id} id={place.id} className={styles.item} textValue={place.name}>
            {headed(place.name)}
          </ListBoxItem>
        ))}
      </ListBox>
      <div className={styles.offered} aria-live="polite">
        <OfferWords />
        {chosen !== null && <Button onPress={() => void hand.lay()}>{words.floor.layIt}</Button>}
      </div>
    </Panel>
  );
}
