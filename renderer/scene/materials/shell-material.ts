import { BackSide, Color, FrontSide, ShaderMaterial } from "three";
import type { Palette } from "../palette.ts";

const vertexShader = /* glsl */ `
#include <clipping_planes_pars_vertex>
attribute float owner;
uniform float hovered;
varying vec3 vNormal;
varying float vMine;
void main() {
  vNormal = normalize(normalMatrix * normal);
  vMine = abs(owner - hovered) < 0.5 ? 1.0 : 0.0;
  vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
  gl_Position = projectionMatrix * mvPosition;
  #include <clipping_planes_vertex>
}`;

const fragmentShader = /* glsl */ `
#include <clipping_planes_pars_fragment>
uniform vec3 lit;
uniform vec3 shade;
uniform vec3 accent;
uniform float opacity;
varying vec3 vNormal;
varying float vMine;
void main() {
  #include <clipping_planes_fragment>
  vec3 n = normalize(vNormal) * TOWARDS_EYE;
  float key = 0.5 + 0.5 * dot(n, normalize(vec3(-0.38, 0.72, 0.58)));
  float light = smoothstep(0.12, 0.95, key);
  vec3 colour = mix(shade, lit, light);
  colour = mix(colour, accent, vMine > 0.5 ? 0.16 : 0.0);
  gl_FragColor = vec4(colour, opacity);
  #include <colorspace_fragment>
}`;

/**
 * A soft matte surface, lit from above the viewer's left shoulder: gel coat inside, laminate outside. No gloss. The outside is
 * drawn a little further off than it is, so that the reinforcement lies on it however coarse the triangles; the inside a little
 * nearer, so that it hides the reinforcement behind it.
 */
export function makeShellMaterial(side: "inside" | "outside"): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader,
    fragmentShader,
    // Triangles run counter-clockwise seen from the ground: the front is the laminate, the back the gel coat.
    side: side === "outside" ? FrontSide : BackSide,
    defines: { TOWARDS_EYE: side === "outside" ? "1.0" : "-1.0" },
    clipping: true,
    polygonOffset: true,
    polygonOffsetFactor: side === "outside" ? 1.5 : -0.5,
    polygonOffsetUnits: side === "outside" ? 40 : -24,
    uniforms: {
      lit: { value: new Color() },
      shade: { value: new Color() },
      accent: { value: new Color() },
      opacity: { value: 1 },
      hovered: { value: -1 },
    },
  });
}

/** Paints one side in a theme; see-through lets the reinforcement behind it be seen. */
export function paintShell(
  material: ShaderMaterial,
  side: "inside" | "outside",
  palette: Palette,
  seeThrough: boolean,
): void {
  const { uniforms } = material;
  uniforms.lit.value = palette[side === "inside" ? "gel-lit" : "glass-lit"];
  uniforms.shade.value = palette[side === "inside" ? "gel-shade" : "glass-shade"];
  uniforms.accent.value = palette.sea;
  uniforms.opacity.value = seeThrough ? 0.28 : 1;
  material.transparent = seeThrough;
  material.depthWrite = !seeThrough;
}
