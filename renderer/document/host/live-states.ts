import type { Host, WorkingState } from "./host.ts";

const lockOf = (id: string) => `ribband-working-${id}`;

/**
 * Marks working states as in use while this page lives, so that another page does not offer what is being worked on here.
 * A Web Lock goes by itself when its page is closed, loaded again or killed.
 */
export function withoutLive(autosave: Host["autosave"]): Host["autosave"] {
  const held = new Set<string>();
  const hold = (id: string) => {
    if (held.has(id)) return;
    held.add(id);
    void navigator.locks.request(lockOf(id), () => new Promise(() => {}));
  };
  return {
    put(working: WorkingState) {
      hold(working.id);
      return autosave.put(working);
    },
    async list() {
      const states = await autosave.list();
      const live = new Set((await navigator.locks.query()).held?.map(({ name }) => name));
      return states.filter(({ id }) => !live.has(lockOf(id)));
    },
    drop: autosave.drop,
  };
}
