/** Signals so soon after the first are the same press: a program that started this one hears it too, and passes it on, ms. */
const SAME_PRESS = 500;

/** Until the function that it gives back is called, the first Ctrl-C does something else than end the program; the next one ends it. */
export function onFirstCtrlC(act: () => void): () => void {
  let pressed: number | undefined;
  const soFar = () => performance.now() - (pressed ?? Number.NEGATIVE_INFINITY);
  const hear = () => {
    if (pressed === undefined) {
      pressed = performance.now();
      act();
    } else if (soFar() > SAME_PRESS) {
      deaf();
      // With nobody listening any more, the signal ends the program as it would have.
      process.kill(process.pid, "SIGINT");
    }
  };
  const deaf = () => void process.off("SIGINT", hear);
  process.on("SIGINT", hear);
  return () => {
    if (soFar() > SAME_PRESS) deaf();
    else setTimeout(deaf, SAME_PRESS - soFar()).unref();
  };
}
