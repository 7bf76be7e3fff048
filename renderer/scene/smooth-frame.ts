import {
  type Camera,
  Mesh,
  NoBlending,
  PlaneGeometry,
  type Scene,
  ShaderMaterial,
  SRGBColorSpace,
  Vector2,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";

/** Places in each pixel at which it is seen what lies there. */
const SAMPLES = 4;

/**
 * Draws frames with smooth edges: on a sheet of its own that has several samples a pixel, and from there on the canvas. The canvas has one,
 * so that a frame that must be quick more than its edges be smooth is drawn straight on it: without a graphics card that halves its cost.
 */
export class SmoothFrame {
  private readonly sheet = new WebGLRenderTarget(1, 1, { samples: SAMPLES });
  private readonly copy = new Mesh(new PlaneGeometry(2, 2), makeCopyMaterial());
  private readonly size = new Vector2();

  constructor() {
    this.copy.frustumCulled = false;
    this.copy.material.uniforms.sheet.value = this.sheet.texture;
    this.sheet.texture.colorSpace = SRGBColorSpace;
    // Colours are mixed as the canvas mixes them: else three would mix them in linear light there, and make every shader a second time.
    Object.assign(this.sheet, { isXRRenderTarget: true });
    this.sheet.texture.internalFormat = "RGBA8";
  }

  draw(gl: WebGLRenderer, scene: Scene, camera: Camera): void {
    const { x, y } = gl.getDrawingBufferSize(this.size);
    this.sheet.setSize(x, y);
    gl.setRenderTarget(this.sheet);
    gl.render(scene, camera);
    gl.setRenderTarget(null);
    gl.render(this.copy, camera);
  }

  dispose(): void {
    this.sheet.dispose();
    this.copy.geometry.dispose();
    this.copy.material.dispose();
  }
}

/** Pixel for pixel, as they are. */
function makeCopyMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: /* glsl */ `
      void main() {
        gl_Position = vec4(position.xy, 0.0, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform sampler2D sheet;
      void main() {
        gl_FragColor = texelFetch(sheet, ivec2(gl_FragCoord.xy), 0);
      }`,
    blending: NoBlending,
    depthTest: false,
    depthWrite: false,
    uniforms: { sheet: { value: null } },
  });
}
