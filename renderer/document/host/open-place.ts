const place = "ribband.open";

/** Remembers which file this window has, so that the same one opens when the page is loaded again. */
export function rememberOpen<T extends { readonly handle: string | null }>(file: T): T {
  if (file.handle === null) sessionStorage.removeItem(place);
  else sessionStorage.setItem(place, file.handle);
  return file;
}

export const forgetOpen = (): void => sessionStorage.removeItem(place);

export function rememberedOpen(): string | null {
  return sessionStorage.getItem(place);
}
