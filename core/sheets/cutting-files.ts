import { alikeMarkers } from "../cutting/lots/alike-markers.ts";
import type { CutLot } from "../cutting/lots/cut-lot.ts";
import type { MarkerSet } from "../cutting/lots/markers.ts";
import { fileNamesFor } from "./file-names.ts";
import { type LabelSheetName, labelPages, labelSheets } from "./labels.ts";
import { markerDrawing } from "./marker-drawing.ts";
import { markerPages } from "./marker-pages.ts";
import type { Drawing } from "./paper/drawing.ts";
import { printDxf } from "./paper/dxf.ts";
import type { Fonts } from "./paper/font.ts";
import { type PaperName, papers } from "./paper/page.ts";
import { printPdf } from "./paper/pdf.ts";
import { printSvg } from "./paper/svg.ts";
import { pieceCards } from "./piece-cards.ts";
import { stripPages } from "./strip-pages.ts";
import { isShaped, type TemplatePaper, templatePages } from "./templates.ts";

export interface CuttingFilesOptions {
  readonly fonts: Fonts;
  /** For what is drawn to scale. */
  readonly paper: PaperName;
  readonly templates: TemplatePaper;
  readonly labels: LabelSheetName;
  /** Hears what is being written. */
  readonly onStage?: (stage: string) => void;
  /** Hears which file, or label, is being drawn. */
  readonly onPart?: (part: string) => void;
}

/**
 * The files that the cutting room takes to the table, by name; folders are parted by `/`. A drawing of each marker at full size (DXF, SVG) and for
 * cutting by hand (PDF), templates of shaped pieces, labels, the plans of strips and sheets. Same lot and options, same bytes.
 */
export function cuttingFiles(lot: CutLot, options: CuttingFilesOptions): Map<string, string | Uint8Array> {
  const { fonts, onStage = () => {}, onPart = () => {} } = options;
  const files = new Map<string, string | Uint8Array>();
  const cards = pieceCards(lot.models);
  const byId = new Map(cards.map((card) => [card.id, card]));
  const page = { lot: lot.name, paper: papers[options.paper], fonts };
  const pdf = (name: string, title: string, pages: readonly Drawing[]) => {
    if (pages.length === 0) return;
    const onPage = (number: number) => onPart(`writing ${name}, page ${number} of ${pages.length}`);
    files.set(name, printPdf(`${lot.name}: ${title}`, pages, fonts, onPage));
  };

  onStage("drawing markers");
  const sheets: Drawing[] = [];
  for (const { name, title, alike, isSheet } of markersOf(lot.markers, lot)) {
    const { marker } = alike;
    onPart(`drawing marker ${name}`);
    const drawing = markerDrawing(alike, byId);
    files.set(`markers/${name}.dxf`, printDxf(drawing));
    files.set(`markers/${name}.svg`, printSvg(`${lot.name}: ${title}`, drawing));
    const pages = markerPages({ marker, title, cards: byId }, page);
    if (isSheet) sheets.push(...pages);
    pdf(`markers/${name}.pdf`, title, pages);
  }
  pdf("sheets.pdf", "sheets", sheets);
  pdf("strips.pdf", "strips", stripPages(lot.strips, byId, page));

  onStage("drawing templates");
  const shaped = cards.filter(isShaped);
  const names = fileNamesFor(shaped.map(({ called }) => called));
  shaped.forEach((card, i) => {
    onPart(`drawing the template of ${card.called}`);
    const pages = templatePages(card, lot.name, options.templates, fonts);
    pdf(`templates/${names[i]}.pdf`, card.called, pages);
  });

  onStage("setting labels");
  const onLabel = (called: string) => onPart(`setting labels of ${called}`);
  const labels = labelPages(cards, lot.name, labelSheets[options.labels], fonts, onLabel);
  pdf("labels.pdf", "labels", labels);
  return files;
}

/** The markers of all materials, those cut alike once, each with the name of its files: material and number. */
function markersOf(sets: readonly MarkerSet[], { demand }: CutLot) {
  return sets.flatMap(({ material, plan }) => {
    const own = demand.find((each) => each.material.id === material)?.material;
    const isSheet = own?.kind === "sheet";
    const kind = isSheet ? "sheet" : "roll";
    return alikeMarkers(plan.markers).map((alike) => {
      const { first, times } = alike;
      const last = first + times - 1;
      const which = times === 1 ? `${kind} ${first}` : `${kind}s ${first}–${last}`;
      return {
        alike,
        isSheet,
        name: `${material}-${first}${times === 1 ? "" : `-to-${last}`}`,
        title: `${times === 1 ? "" : `${times} × `}${own?.name ?? material}, ${which} of ${plan.markers.length}`,
      };
    });
  });
}
