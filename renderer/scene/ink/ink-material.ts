import { Color, ShaderMaterial, Vector2 } from "three";

const vertexShader = /* glsl */ `
#include <clipping_planes_pars_vertex>
attribute vec3 start;
attribute vec3 end;
uniform vec2 screen;
uniform float width;
uniform float nearer;
void main() {
  // Four corners a segment, in the order of the buffer: right and left at its start, then at its end.
  bool last = (gl_VertexID & 2) != 0;
  float side = (gl_VertexID & 1) == 0 ? 1.0 : -1.0;
  vec4 a = modelViewMatrix * vec4(start, 1.0);
  vec4 b = modelViewMatrix * vec4(end, 1.0);
  float nearPlane = projectionMatrix[3][2] / (projectionMatrix[2][2] - 1.0);
  // What lies behind the eye has no place on screen: a segment that comes from there begins at the near plane.
  if (a.z > -nearPlane && b.z < -nearPlane) a = mix(b, a, (-nearPlane - b.z) / (a.z - b.z));
  if (b.z > -nearPlane && a.z < -nearPlane) b = mix(a, b, (-nearPlane - a.z) / (b.z - a.z));
  vec4 clipA = projectionMatrix * a;
  vec4 clipB = projectionMatrix * b;
  vec2 run = (clipB.xy / clipB.w - clipA.xy / clipA.w) * screen;
  float size = length(run);
  vec2 along = size > 0.0 ? run / size : vec2(1.0, 0.0);
  vec2 across = vec2(along.y, -along.x);
  vec4 mvPosition = last ? b : a;
  vec4 clip = last ? clipB : clipA;
  // Ends reach on by half a width, so that segments meet without a gap.
  clip.xy += (side * across + (last ? along : -along)) * width * clip.w / screen;
  // A pixel at depth d is 2d / (P₁₁ H) wide, and d less by δ is 2nδ/d less in clip z (near plane n, far ≫ n): d cancels.
  clip.z -= nearer * 4.0 * nearPlane / (projectionMatrix[1][1] * screen.y);
  gl_Position = clip;
  #include <clipping_planes_vertex>
}`;

const fragmentShader = /* glsl */ `
#include <clipping_planes_pars_fragment>
uniform vec3 colour;
uniform float opacity;
void main() {
  #include <clipping_planes_fragment>
  gl_FragColor = vec4(colour, opacity);
  #include <colorspace_fragment>
}`;

/** Ink of a constant width on screen, drawn nearer to the eye than it is by some pixels. */
export class InkMaterial extends ShaderMaterial {
  /** Width, and how much nearer, in pixels. */
  constructor(width: number, nearer: number) {
    super({
      vertexShader,
      fragmentShader,
      clipping: true,
      uniforms: {
        screen: { value: new Vector2(1, 1) },
        width: { value: width },
        nearer: { value: nearer },
        colour: { value: new Color() },
        opacity: { value: 1 },
      },
    });
  }

  set ink(colour: Color) {
    this.uniforms.colour.value = colour;
  }

  set width(pixels: number) {
    this.uniforms.width.value = pixels;
  }

  /** Lets what lies behind show through, from 0 (nothing to be seen of the ink) to 1. */
  set cover(opacity: number) {
    this.transparent = opacity < 1;
    this.uniforms.opacity.value = opacity;
  }

  /** Size of the picture, pixels of the page. */
  get screen(): Vector2 {
    return this.uniforms.screen.value;
  }
}
