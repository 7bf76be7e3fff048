import type { Measure } from "../shell/measure.ts";

/** What `ribband measure --json` prints: figures unrounded, units in the names of the keys. */
export function measureReport(name: string, measure: Measure) {
  const { mesh } = measure;
  return {
    report: "measure",
    version: 1,
    name,
    shell: {
      areaM2: measure.areaMm2 / 1e6,
      volumeToRimM3: measure.volumeToRimMm3 / 1e9,
      volumeToWaterM3: measure.volumeToWaterMm3 / 1e9,
      rimLengthMm: measure.rimLengthMm,
    },
    faces: measure.faces.map(({ id, kind, areaMm2 }) => ({ id, kind, areaM2: areaMm2 / 1e6 })),
    transitions: measure.transitions.map(({ id, kind, between, lengthMm, closed, exact }) => ({
      id,
      kind,
      between,
      lengthMm,
      closed,
      exact,
    })),
    adjustments: measure.adjustments,
    mesh: {
      triangles: mesh.triangles,
      openEdges: mesh.openEdges,
      holeEdges: mesh.holeEdges,
      tangledEdges: mesh.tangledEdges,
      smallestAngleDeg: degrees(mesh.smallestAngle),
      chordGapMm: mesh.chordGapMm,
      tears: mesh.tears.map(({ faces, point, size }) => ({ between: faces, at: point, gapMm: size })),
      kinks: mesh.kinks.map(({ faces, point, size }) => ({
        between: faces,
        at: point,
        turnDeg: degrees(size),
      })),
    },
    flaws: measure.flaws,
    doubts: measure.doubts,
  };
}

const degrees = (radians: number) => (radians * 180) / Math.PI;
