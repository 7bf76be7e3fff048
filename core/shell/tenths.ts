/** A figure of the file as sentences tell it, mm: what was dragged or reckoned to many decimals, to the tenth. */
export const tenths = (mm: number): number => Math.round(mm * 10) / 10;
