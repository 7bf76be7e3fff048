/** A number of things in words: `1 sheet`, `2 sheets`. */
export const counted = (number: number, one: string): string => `${number} ${one}${number === 1 ? "" : "s"}`;
