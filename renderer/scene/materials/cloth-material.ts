import { Color, DoubleSide, ShaderMaterial, Vector2 } from "three";
import type { Pattern } from "../../worker/drawing/drawing.ts";
import type { Palette } from "../palette.ts";
import { patternShader } from "./patterns.ts";

/** Most plies that a zone may have: the limit of the project file. */
const MOST_PLIES = 8;

const vertexShader = /* glsl */ `
#include <clipping_planes_pars_vertex>
attribute vec2 inCloth;
varying vec3 vNormal;
varying vec2 vInCloth;
void main() {
  vNormal = normalize(normalMatrix * normal);
  vInCloth = inCloth;
  vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
  gl_Position = projectionMatrix * mvPosition;
  #include <clipping_planes_vertex>
}`;

const fragmentShader = /* glsl */ `
#include <clipping_planes_pars_fragment>
uniform vec3 tint;
uniform vec3 ink;
uniform vec3 accent;
uniform float lit;
uniform int plyCount;
uniform vec2 plies[${MOST_PLIES}];
varying vec3 vNormal;
varying vec2 vInCloth;
${patternShader}
void main() {
  #include <clipping_planes_fragment>
  vec3 n = normalize(vNormal) * (gl_FrontFacing ? 1.0 : -1.0);
  float key = 0.5 + 0.5 * dot(n, normalize(vec3(-0.38, 0.72, 0.58)));
  float pattern = material(vInCloth);
  // Each further ply stops short of the one below: deeper tint where more lie on each other, an ink line at each edge.
  float pixel = max(fwidth(vInCloth.y), 1e-3);
  float over = 0.0;
  float edge = 0.0;
  for (int i = 1; i < ${MOST_PLIES}; i++) {
    if (i >= plyCount) break;
    float reach = vInCloth.y > 0.0 ? plies[i].x : plies[i].y;
    float beyond = abs(vInCloth.y) - reach;
    over += beyond < 0.0 ? 1.0 : 0.0;
    edge = max(edge, 1.0 - smoothstep(0.4, 1.2, abs(beyond) / pixel));
  }
  vec3 base = mix(tint, ink, 0.09 * over);
  base = mix(base, accent, 0.30 * lit);
  vec3 colour = mix(base, ink, max(0.62 * pattern, 0.85 * edge));
  colour *= mix(0.80, 1.04, smoothstep(0.1, 0.95, key));
  gl_FragColor = vec4(colour, 1.0);
  #include <colorspace_fragment>
}`;

/** The role of each pattern's tint in the palette. */
const tints = { weave: "straw", ticks: "moss", cells: "clay", hatch: "plum" } as const;
const numbers: Record<Pattern, number> = { weave: 0, ticks: 1, cells: 2, hatch: 3 };

/** A material drawn as what it is: woven, scored strip, honeycomb or web, by its pattern first and its tint second. */
export function makeClothMaterial(pattern: Pattern): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader,
    fragmentShader,
    defines: { PATTERN: numbers[pattern] },
    side: DoubleSide,
    clipping: true,
    // Its own ink lies on it; it must stay nearer than the shell's outside, which is drawn further off still.
    polygonOffset: true,
    polygonOffsetFactor: 0.5,
    polygonOffsetUnits: 6,
    uniforms: {
      tint: { value: new Color() },
      ink: { value: new Color() },
      accent: { value: new Color() },
      lit: { value: 0 },
      plyCount: { value: 1 },
      plies: { value: Array.from({ length: MOST_PLIES }, () => new Vector2()) },
    },
  });
}

/** Paints a material in a theme. `lit` from 0 to 1: pointed at or chosen. */
export function paintCloth(material: ShaderMaterial, pattern: Pattern, palette: Palette, lit: number): void {
  const { uniforms } = material;
  uniforms.tint.value = palette[tints[pattern]];
  uniforms.ink.value = palette[`${tints[pattern]}-ink`];
  uniforms.accent.value = palette.amber;
  uniforms.lit.value = lit;
}

/** Tells a material how far each ply reaches, mm to the left and to the right of the zone's line. */
export function setPlies(material: ShaderMaterial, plies: readonly (readonly [number, number])[]): void {
  const { uniforms } = material;
  uniforms.plyCount.value = Math.min(Math.max(plies.length, 1), MOST_PLIES);
  plies.slice(0, MOST_PLIES).forEach(([left, right], i) => {
    uniforms.plies.value[i].set(left, right);
  });
}
