/**
 * Hears of every error that nobody caught, in a handler or in a promise, and hands it on to be told: a fault that only the
 * console knows of looks like a button that does nothing. Gives the function that ends the listening.
 */
export function onUnexpected(page: EventTarget, tell: (error: unknown) => void): () => void {
  const onError = (event: Event) => {
    const { error, message } = event as ErrorEvent;
    // The browser's own remark about layout is no fault, and it comes without an error.
    if (!error && String(message).startsWith("ResizeObserver loop")) return;
    tell(error ?? message);
  };
  const onRejection = (event: Event) => tell((event as PromiseRejectionEvent).reason);
  page.addEventListener("error", onError);
  page.addEventListener("unhandledrejection", onRejection);
  return () => {
    page.removeEventListener("error", onError);
    page.removeEventListener("unhandledrejection", onRejection);
  };
}
