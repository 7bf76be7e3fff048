/** Length of a rest as all lists give it, to the tenth of a mm, mm: rounded down, so that nobody counts on what is not there. */
export const downToTenth = (mm: number) => Math.floor(mm * 10 + 1e-6) / 10;
