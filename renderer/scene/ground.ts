import {
  BufferGeometry,
  Color,
  DoubleSide,
  Float32BufferAttribute,
  Group,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  ShaderMaterial,
  Shape,
  ShapeGeometry,
  ShapeUtils,
  Vector2,
} from "three";
import type { ShellView } from "../worker/messages.ts";
import type { Palette } from "./palette.ts";

/** How far the shell's shadow fades out on the ground, mm. */
const PENUMBRA = 520;
/** How far inside the coping's edge it begins to fade, mm. */
const CORE = 180;

/** The ground: a soft shadow, a grid of one metre and a person of 1.8 m for scale. */
export class Ground extends Group {
  private readonly shadow = new Mesh(new BufferGeometry(), makeShadowMaterial());
  private readonly grid = new Mesh(new PlaneGeometry(40_000, 40_000), makeGridMaterial());
  private readonly person = new Mesh(personGeometry(), new MeshBasicMaterial({ side: DoubleSide }));

  constructor() {
    super();
    // A little below the shell, so that neither ever shows through it.
    this.position.z = -40;
    this.shadow.position.z = 6;
    this.grid.renderOrder = -2;
    this.shadow.renderOrder = -1;
    this.add(this.grid, this.shadow, this.person);
  }

  setShell(shell: ShellView): void {
    this.shadow.geometry.dispose();
    this.shadow.geometry = shadowGeometry(shell);
    this.person.position.set(-shell.size.length / 2 - 700, shell.size.width / 2 + 300, 0);
  }

  paint(palette: Palette, dark: boolean): void {
    this.shadow.material.uniforms.colour.value = dark ? new Color("#000000") : palette.ink;
    this.shadow.material.uniforms.strength.value = dark ? 0.45 : 0.15;
    this.grid.material.uniforms.colour.value = palette.soft;
    this.person.material.color = palette.line;
  }

  show(grid: boolean): void {
    this.grid.visible = grid;
    this.person.visible = grid;
  }

  /** Turns the person to the eye. */
  face(x: number, y: number): void {
    const { position } = this.person;
    this.person.rotation.z = Math.atan2(y - position.y, x - position.x) + Math.PI / 2;
  }

  override dispose(): void {
    for (const mesh of [this.shadow, this.grid, this.person]) {
      mesh.geometry.dispose();
      mesh.material.dispose();
    }
  }
}

/** The coping's outline on the ground, fading outwards. */
function shadowGeometry({ rim, size, flange }: ShellView): BufferGeometry {
  const count = rim.length / 2;
  const at = (i: number) => new Vector2(rim[2 * i] - size.length / 2, rim[2 * i + 1]);
  const outwards = (i: number, reach: number) => {
    const along = at((i + 1) % count)
      .sub(at((i + count - 1) % count))
      .normalize();
    return at(i).add(new Vector2(along.y, -along.x).multiplyScalar(reach));
  };
  const inner = Array.from({ length: count }, (_, i) => outwards(i, flange - CORE));
  const triangles = ShapeUtils.triangulateShape(inner, []);
  // Points on straight lines fall out of the triangulation; the fading rim must share its corners, or light comes through.
  const used = [...new Set(triangles.flat())].sort((a, b) => a - b);
  const place = new Map(used.map((i, n) => [i, n]));
  const index = triangles.flat().map((i) => place.get(i) ?? 0);
  used.forEach((_, a) => {
    const b = (a + 1) % used.length;
    const [c, d] = [a + used.length, b + used.length];
    index.push(a, b, d, a, d, c);
  });
  const points = [...used.map((i) => inner[i]), ...used.map((i) => outwards(i, flange + PENUMBRA))];
  const geometry = new BufferGeometry();
  geometry.setAttribute(
    "position",
    new Float32BufferAttribute(
      points.flatMap(({ x, y }) => [x, y, 0]),
      3,
    ),
  );
  geometry.setAttribute(
    "fade",
    new Float32BufferAttribute(
      points.map((_, i) => (i < used.length ? 1 : 0)),
      1,
    ),
  );
  geometry.setIndex(index);
  return geometry;
}

function makeShadowMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: /* glsl */ `
      attribute float fade;
      varying float vFade;
      void main() {
        vFade = fade;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform vec3 colour;
      uniform float strength;
      varying float vFade;
      void main() {
        // Held: at the edges of thin triangles samples lie outside them.
        float fade = clamp(vFade, 0.0, 1.0);
        gl_FragColor = vec4(colour, strength * fade * fade * (3.0 - 2.0 * fade));
        #include <colorspace_fragment>
      }`,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    uniforms: { colour: { value: new Color() }, strength: { value: 0.2 } },
  });
}

function makeGridMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    vertexShader: /* glsl */ `
      varying vec2 vAt;
      void main() {
        vAt = position.xy;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
      }`,
    fragmentShader: /* glsl */ `
      uniform vec3 colour;
      varying vec2 vAt;
      void main() {
        vec2 metres = vAt / 1000.0;
        vec2 pixel = max(fwidth(metres), 1e-5);
        vec2 off = abs(fract(metres - 0.5) - 0.5) / pixel;
        float line = 1.0 - smoothstep(0.2, 1.0, min(off.x, off.y));
        float crowded = 1.0 - smoothstep(0.15, 0.5, max(pixel.x, pixel.y));
        float far = 1.0 - smoothstep(4500.0, 11000.0, length(vAt));
        gl_FragColor = vec4(colour, 0.30 * line * crowded * far);
        #include <colorspace_fragment>
      }`,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    uniforms: { colour: { value: new Color() } },
  });
}

/** Half the outline of a person of 1.8 m, from the neck down to between the feet, mm across and up. */
const HALF_PERSON: readonly (readonly [number, number])[] = [
  [52, 1560],
  [58, 1500],
  [150, 1462],
  [212, 1420],
  [238, 1330],
  [262, 1100],
  [272, 880],
  [252, 800],
  [222, 815],
  [216, 900],
  [196, 1100],
  [176, 1240],
  [160, 1080],
  [178, 900],
  [172, 700],
  [140, 440],
  [118, 110],
  [150, 0],
  [44, 0],
  [40, 120],
  [30, 440],
  [14, 790],
];

/** A flat person who stands in the plane of x and z and looks along −y. */
function personGeometry(): BufferGeometry {
  const left = HALF_PERSON.map(([x, y]) => new Vector2(-x, y));
  const right = [...HALF_PERSON].reverse().map(([x, y]) => new Vector2(x, y));
  const body = new Shape([...left, ...right]);
  const head = new Shape().absellipse(0, 1682, 88, 118, 0, 2 * Math.PI);
  return new ShapeGeometry([body, head], 24).rotateX(Math.PI / 2);
}
