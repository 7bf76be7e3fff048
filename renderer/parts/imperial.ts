import type { LengthStyle } from "../../core/units/length.ts";

/** Whether areas, masses and volumes go with these lengths in feet, pounds and gallons. */
export const isImperial = (lengths: LengthStyle): boolean => lengths === "in" || lengths === "ft-in";
