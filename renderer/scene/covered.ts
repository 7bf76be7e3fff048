/** How much of a picture may be given to what lies over it before the shell becomes too small to work on. */
const MOST = 0.45;

/** What lies over a picture at its head and its foot, where `data-over` says so, px. The picture is part of a `data-picture`. */
export function coveredIn(picture: Element): { readonly head: number; readonly foot: number } {
  const around = picture.closest("[data-picture]");
  const own = picture.getBoundingClientRect();
  const reach = (side: "head" | "foot") => {
    const over = [...(around?.querySelectorAll(`[data-over="${side}"]`) ?? [])].map((each) =>
      each.getBoundingClientRect(),
    );
    return Math.max(
      0,
      ...over.map(({ top, bottom }) => (side === "head" ? bottom - own.top : own.bottom - top)),
    );
  };
  const [head, foot] = [reach("head"), reach("foot")];
  const less = Math.min(1, (MOST * own.height) / Math.max(1, head + foot));
  return { head: head * less, foot: foot * less };
}
