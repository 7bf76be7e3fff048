import { createStore, type StoreApi } from "zustand/vanilla";
import type { ZoneSpec } from "../../core/project/schema.ts";
import type { ProjectStore } from "../document/project-store.ts";
import { session, type Thing } from "../document/session.ts";
import { zoneName } from "../parts/names.ts";
import { words } from "../words.ts";
import type { Keeping } from "../worker/client.ts";
import type { ResultsStore } from "../worker/results.ts";
import type { Tried } from "../worker/trials.ts";
import { outlineOf } from "./rim-places.ts";
import type { Aim, Ground, Place } from "./tool.ts";
import { toolOf } from "./tools.ts";
import { isLaid, laying, named } from "./zone-edits.ts";

/** What the tool in hand would lay here, and what that comes to once it was tried. */
export interface Offer {
  readonly name: string;
  readonly zones: readonly ZoneSpec[];
  readonly lights: Thing | null;
  readonly tried: readonly Tried[] | null;
  /** Whether it is drawn by a drag that is still under way. */
  readonly swept: boolean;
}

/** The hand that holds a tool: what it points at is offered, tried on the shell and laid when the person says so. */
export interface Hand {
  readonly offer: StoreApi<{ readonly offer: Offer | null }>;
  /** Gets ready for a tool that is taken up: what it asks of the worker is asked now. */
  prepare(): void;
  /** Points at a place of the shell, or at nothing. */
  aim(aim: Aim | null): void;
  /** Offers a place chosen by name. */
  take(place: Place | null): void;
  /** Offers zones that are named already. */
  offerAll(name: string, zones: readonly ZoneSpec[]): void;
  /** Whether a drag that starts here would lay something. */
  sweeps(aim: Aim): boolean;
  sweep(path: readonly Aim[]): void;
  /** Resolves when what was last pointed at has become an offer, or none. */
  settled(): Promise<void>;
  /** Lays what is offered and chooses it; false if there is nothing that finds a place. */
  lay(): Promise<boolean>;
  /** Every place that the tool in hand can lay on. */
  places(): Promise<readonly Place[]>;
}

type Trials = Keeping["trials"];

export function makeHand(project: ProjectStore, results: ResultsStore, trials: Trials): Hand {
  const offer = createStore<{ readonly offer: Offer | null }>(() => ({ offer: null }));
  const bandsFor = houseBands(project, trials);
  let trying = false;
  let newest = 0;
  let settling = Promise.resolve();

  const groundNow = (bands: Ground["bands"]): Ground | null => {
    const state = project.state.getState().project;
    const { shell, lines } = results.getState();
    const outline = outlineOf(state.shell.outline);
    if (!shell || !outline) return null;
    const placesOf = (aims: readonly Aim[]) => trials.places(state, aims);
    const { brush } = session.getState();
    return { project: state, outline, shell, lines, bands, brush, placesOf, zones: state.layup };
  };

  /** Tries the offer as it is now; while one is being tried the newest waits. */
  const tryOut = async () => {
    if (trying) return;
    trying = true;
    try {
      for (;;) {
        const now = offer.getState().offer;
        if (!now || now.tried) return;
        const tried = await trials.lay(project.state.getState().project, now.zones);
        offer.setState(({ offer: then }) => (then?.zones === now.zones ? { offer: { ...then, tried } } : {}));
      }
    } finally {
      trying = false;
    }
  };

  const put = (place: Place | null, swept: boolean) => {
    const { layup } = project.state.getState().project;
    const zones = place ? named({ layup }, [place.zone]) : [];
    const before = offer.getState().offer;
    if (!place || isLaid(layup, zones[0])) {
      if (before) offer.setState({ offer: null });
      return;
    }
    if (before && JSON.stringify(before.zones) === JSON.stringify(zones)) {
      if (before.swept !== swept) offer.setState({ offer: { ...before, swept } });
      return;
    }
    offer.setState({ offer: { name: place.name, zones, lights: place.lights, tried: null, swept } });
    void tryOut();
  };

  /** Works on the ground as it is known; what comes too late is not offered. */
  const withGround = (make: (ground: Ground) => Place | null | Promise<Place | null>, swept: boolean) => {
    const own = ++newest;
    const bands = bandsFor();
    const go = async (known: Ground["bands"]) => {
      const ground = groundNow(known);
      const place = ground ? await make(ground) : null;
      if (own === newest) put(place, swept);
    };
    settling = bands instanceof Promise ? bands.then(go) : go(bands);
  };
  const tool = () => toolOf(session.getState().tool);

  return {
    offer,
    prepare: () => void bandsFor(),
    aim(aim) {
      const held = tool();
      if (!held || !aim) {
        newest++;
        put(null, false);
      } else withGround((ground) => held.at(ground, aim), false);
    },
    take(place) {
      newest++;
      put(place, false);
    },
    offerAll(name, zones) {
      newest++;
      offer.setState({ offer: { name, zones, lights: null, tried: null, swept: false } });
      void tryOut();
    },
    sweeps(aim) {
      const bands = bandsFor();
      // Until the rules' bands are known only the band itself cannot begin.
      const ground = groundNow(bands instanceof Promise ? {} : bands);
      const held = tool();
      if (!ground || !held?.along) return false;
      return held.starts ? held.starts(ground, aim) : held.at(ground, aim) !== null;
    },
    sweep(path) {
      const along = tool()?.along;
      const [from] = path;
      const to = path.at(-1);
      if (along && from && to) withGround((ground) => along(ground, from, to, path), true);
    },
    settled: () => settling,
    async lay() {
      const now = offer.getState().offer;
      if (!now) return false;
      const tried = now.tried ?? (await trials.lay(project.state.getState().project, now.zones));
      offer.setState({ offer: null });
      if (tried.some(({ ok }) => !ok)) return false;
      const step = words.steps.lay(zoneName(now.zones[0].id));
      if (!project.edit(step, laying(now.zones)).ok) return false;
      session.setState({ selected: now.zones.map(({ id }) => ({ kind: "zone", id })) });
      return true;
    },
    async places() {
      const held = tool();
      const ground = groundNow(await bandsFor());
      return held && ground ? held.places(ground) : [];
    },
  };
}

/** The bands of the house rules, asked for anew when the shell or the rules have changed. */
function houseBands(project: ProjectStore, trials: Trials): () => Ground["bands"] | Promise<Ground["bands"]> {
  let key: readonly unknown[] = [];
  let known: Ground["bands"] | Promise<Ground["bands"]> = {};
  return () => {
    const now = project.state.getState().project;
    const wanted = [now.shell, now.rules, now.shop];
    if (wanted.every((part, i) => part === key[i])) return known;
    key = wanted;
    const asked = trials.bands(now);
    known = asked;
    void asked.then((bands) => {
      if (known === asked) known = bands;
    });
    return asked;
  };
}
