type MayClose = () => Promise<boolean>;

/** Those who are asked before the window closes. With nobody there, as on the start page, nothing can be lost. */
export function closeListeners() {
  const listeners = new Set<MayClose>();
  return {
    add(listener: MayClose): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    isEmpty: () => listeners.size === 0,
    async mayClose(): Promise<boolean> {
      for (const listener of listeners) if (!(await listener())) return false;
      return true;
    },
  };
}
