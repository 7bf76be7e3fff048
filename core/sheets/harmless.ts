/**
 * Characters that make a terminal do something other than show them: control characters (the escape that begins every
 * terminal's orders among them), and marks that turn the direction of the text or break its lines.
 */
const COMMANDING = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\ufeff]/gu;

/** A text from a project file as it can be shown anywhere: what would command a terminal is written out, as in \u001b. */
export function harmless(text: string): string {
  return text.replace(COMMANDING, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, "0")}`);
}
