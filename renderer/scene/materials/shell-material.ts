import { Color, DoubleSide, ShaderMaterial } from "three";
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
uniform vec3 gelLit;
uniform vec3 gelShade;
uniform vec3 glassLit;
uniform vec3 glassShade;
uniform vec3 accent;
uniform float opacity;
varying vec3 vNormal;
varying float vMine;
void main() {
  #include <clipping_planes_fragment>
  // Triangles run counter-clockwise seen from the ground: the front is the laminate, the back the gel coat.
  vec3 n = normalize(vNormal) * (gl_FrontFacing ? 1.0 : -1.0);
  float key = 0.5 + 0.5 * dot(n, normalize(vec3(-0.38, 0.72, 0.58)));
  float light = smoothstep(0.12, 0.95, key);
  vec3 colour = gl_FrontFacing ? mix(glassShade, glassLit, light) : mix(gelShade, gelLit, light);
  colour = mix(colour, accent, vMine > 0.5 ? 0.16 : 0.0);
  gl_FragColor = vec4(colour, opacity);
  #include <colorspace_fragment>
}`;

/** A soft matte surface, lit from above the viewer's left shoulder: gel coat inside, laminate outside. No gloss. */
export function makeShellMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader,
    fragmentShader,
    side: DoubleSide,
    clipping: true,
    // Ink lies on the surface and must win against it.
    polygonOffset: true,
    polygonOffsetFactor: 1.5,
    polygonOffsetUnits: 60,
    uniforms: {
      gelLit: { value: new Color() },
      gelShade: { value: new Color() },
      glassLit: { value: new Color() },
      glassShade: { value: new Color() },
      accent: { value: new Color() },
      opacity: { value: 1 },
      hovered: { value: -1 },
    },
  });
}

/** Paints the material in a theme; see-through lets the reinforcement behind it be seen. */
export function paintShell(material: ShaderMaterial, palette: Palette, seeThrough: boolean): void {
  const { uniforms } = material;
  uniforms.gelLit.value = palette["gel-lit"];
  uniforms.gelShade.value = palette["gel-shade"];
  uniforms.glassLit.value = palette["glass-lit"];
  uniforms.glassShade.value = palette["glass-shade"];
  uniforms.accent.value = palette.sea;
  uniforms.opacity.value = seeThrough ? 0.28 : 1;
  material.transparent = seeThrough;
  material.depthWrite = !seeThrough;
}
