import type { LaidZone } from "../../../core/layup/laid.ts";
import type { ShopSpec } from "../../../core/project/schema.ts";
import { drawBand } from "./draw-band.ts";
import { drawPlate } from "./draw-plate.ts";
import { drawStrip } from "./draw-strip.ts";
import { Draughtsman, type Drawing } from "./drawing.ts";

/** Draws a laid zone as what it is: cloth, strips or plates of core, in their true sizes. */
export function drawZone(zone: LaidZone, shop: ShopSpec): Drawing {
  if (zone.kind === "band" || zone.kind === "stroke") return drawBand(zone);
  const pen = new Draughtsman();
  const { material } = zone;
  const thickness = material.kind === "woven" ? 0 : material.thickness;
  switch (zone.kind) {
    case "rib":
    case "rib-row":
    case "stiffener": {
      const width = material.kind === "strip" ? material.width : 0;
      const size = { width, thickness, bevel: (shop.bevelDeg * Math.PI) / 180 };
      const curves = zone.kind === "stiffener" ? [zone.curve] : zone.ribs.map((rib) => rib.curve);
      for (const curve of curves) drawStrip(pen, curve, size);
      return pen.finish("ticks");
    }
    case "gussets":
      for (const { shape, origin, xDirection, yDirection } of zone.gussets) {
        const stand = { origin, x: xDirection, y: yDirection };
        drawPlate(pen, shape, stand, -thickness / 2, thickness / 2);
      }
      return pen.finish("hatch");
    case "pad":
      for (const { shape, z } of zone.shapes) {
        const stand = { origin: [0, 0, z], x: [1, 0, 0], y: [0, 1, 0] } as const;
        drawPlate(pen, shape, stand, -thickness, 0);
      }
      return pen.finish("cells");
  }
}
