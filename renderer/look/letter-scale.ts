/** How much larger than usual a person has the letters: for what is laid out in pixels about them. */
export const letterScale = (): number =>
  Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
