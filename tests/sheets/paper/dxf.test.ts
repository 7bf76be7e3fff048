import { describe, expect, test } from "vitest";
import { type Drawing, line, outline, words } from "../../../core/sheets/paper/drawing.ts";
import { printDxf } from "../../../core/sheets/paper/dxf.ts";
import { auditDxf, auditor, withoutAuditor } from "./dxf-auditor.ts";
import { areaOf, readDxf } from "./read-dxf.ts";

const ell = [0, 0, 300, 0, 300, 100, 120.5, 100, 120.5, 250.125, 0, 250.125];
const drawing: Drawing = {
  widthMm: 320,
  heightMm: 260,
  marks: [
    outline([0, 0, 320, 0, 320, 260, 0, 260], null, "stock"),
    outline(ell, undefined, "cut"),
    line([10, 10, 40, 10]),
    words(50, 50, "Größe: foot/1a\n⅛", 10, { align: "middle", turnDeg: 90 }),
  ],
};

describe("a DXF", () => {
  const text = printDxf(drawing);

  test("is the same at every run", () => {
    expect(printDxf(drawing)).toBe(text);
  });

  test("reads back in mm, with closed outlines of the same area on layer CUT and nothing of the stock", () => {
    const { header, entities } = readDxf(text);
    expect(header).toMatchObject({ $ACADVER: "AC1015", $INSUNITS: 4 });
    expect(entities.map(({ type, layer }) => `${type} ${layer}`)).toEqual([
      "LWPOLYLINE CUT",
      "LWPOLYLINE MARK",
      "TEXT TEXT",
    ]);
    expect(entities[0].shape).toBe(true);
    expect(areaOf(entities[0])).toBeCloseTo(300 * 100 + 120.5 * 150.125, 6);
  });

  test(`stands the audit of an independent reader without an error or a repair${withoutAuditor}`, (context) => {
    if (!auditor) context.skip("Python with ezdxf is not on this machine");
    const broken = text
      .replace("LWPOLYLINE\r\n  5\r\n30\r\n", "LWPOLYLINE\r\n  5\r\n31\r\n")
      .replace(/\r\nCUT\r\n/, "\r\nC*T\r\n");
    const [audit, auditOfBroken] = auditDxf([text, broken]);
    expect(audit).toMatchObject({ version: "AC1015", units: 4, errors: [], fixes: [] });
    expect(audit.areas).toHaveLength(1);
    expect(audit.areas[0]).toBeCloseTo(300 * 100 + 120.5 * 150.125, 6);
    // It would say so if something were wrong.
    expect(auditOfBroken.errors.length + auditOfBroken.fixes.length).toBeGreaterThan(0);
    expect(audit.words).toEqual(["Größe: foot/1a ⅛"]);
  });
});
