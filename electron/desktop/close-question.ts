/**
 * Closing a window with unsaved work: the first try is held back and the page asks the person; the answer lets the window
 * go or leaves it. A page that has nothing unsaved, or that has crashed, is not asked.
 */
export interface CloseQuestion {
  /** Whether the page holds unsaved work; the page says so with its title. */
  setChanged(changed: boolean): void;
  /** The person, or the system, wants the window closed. */
  closing(event: { preventDefault(): void }): void;
  answer(mayClose: boolean): void;
}

/**
 * @param ask puts the question to the page
 * @param close closes the window, which comes back to `closing`
 * @param stayed is told that the person chose to stay
 */
export function closeQuestion(ask: () => void, close: () => void, stayed: () => void): CloseQuestion {
  let changed = false;
  let agreed = false;
  let asked = false;
  return {
    setChanged(now) {
      changed = now;
    },
    closing(event) {
      if (agreed || !changed) return;
      event.preventDefault();
      if (asked) return;
      asked = true;
      ask();
    },
    answer(mayClose) {
      // A page may not close its window unasked.
      if (!asked) return;
      asked = false;
      agreed = mayClose;
      if (mayClose) close();
      else stayed();
    },
  };
}
