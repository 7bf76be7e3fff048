import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Fonts, readFont } from "../../../core/sheets/paper/font.ts";

const { resolve } = createRequire(import.meta.url);
const read = (name: string) => readFont(name, readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));

/** The faces that the command line sets its sheets in. */
export const fonts: Fonts = { plain: read("DejaVuSansCondensed"), bold: read("DejaVuSansCondensed-Bold") };
