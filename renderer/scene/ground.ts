import {
  type BufferGeometry,
  CanvasTexture,
  CircleGeometry,
  Color,
  DoubleSide,
  Group,
  LinearFilter,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  ShaderMaterial,
  Shape,
  ShapeGeometry,
  Texture,
  Vector2,
} from "three";
import type { ShellView } from "../worker/messages.ts";
import type { Palette } from "./palette.ts";

/** How soft the shell's shadow is at its edge, mm. */
const PENUMBRA = 260;
/** Its picture is as fine as its softness asks: drawn anew for each shape that follows a drag. */
const PICTURE_PX = 128;
/** How far the grid is seen from the middle, mm: whole up to there, and fading away. */
const GRID_WHOLE = 4500;
const GRID_REACH = 11_000;

/** The ground: a soft shadow, a grid of one metre and a person of 1.8 m for scale. */
export class Ground extends Group {
  private readonly shadow = new Mesh(
    new PlaneGeometry(1, 1),
    new MeshBasicMaterial({
      alphaMap: new Texture(),
      transparent: true,
      depthWrite: false,
      side: DoubleSide,
    }),
  );
  private readonly grid = new Mesh(new CircleGeometry(GRID_REACH, 64), makeGridMaterial());
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
    const { picture, width, height } = shadowPicture(shell);
    const { material } = this.shadow;
    material.alphaMap?.dispose();
    material.alphaMap = new CanvasTexture(picture);
    // Seen larger than it is: smaller copies of it would be made for nothing.
    material.alphaMap.minFilter = LinearFilter;
    material.alphaMap.generateMipmaps = false;
    this.shadow.scale.set(width, height, 1);
    this.person.position.set(-shell.size.length / 2 - 700, shell.size.width / 2 + 300, 0);
  }

  paint(palette: Palette, dark: boolean): void {
    this.shadow.material.color = dark ? new Color("#000000") : palette.ink;
    this.shadow.material.opacity = dark ? 0.5 : 0.2;
    // As the canvas has it: turned into that for each pixel of the ground, it took a third of the grid's time.
    this.grid.material.uniforms.colour.value.copyLinearToSRGB(palette.soft);
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
    this.shadow.material.alphaMap?.dispose();
    for (const mesh of [this.shadow, this.grid, this.person]) {
      mesh.geometry.dispose();
      mesh.material.dispose();
    }
  }
}

/** Picture of the shell's outline, blurred: white where the shadow falls. Its middle is the middle of the shell. */
function shadowPicture({ rim, size, flange }: ShellView): {
  picture: HTMLCanvasElement;
  width: number;
  height: number;
} {
  const width = size.length + 2 * (flange + 3 * PENUMBRA);
  const height = size.width + 2 * (flange + 3 * PENUMBRA);
  const picture = document.createElement("canvas");
  const scale = PICTURE_PX / width;
  picture.width = PICTURE_PX;
  picture.height = Math.round(height * scale);
  const pen = picture.getContext("2d");
  if (!pen) throw new Error("The browser gives no canvas to draw the shadow on.");
  pen.fillRect(0, 0, picture.width, picture.height);
  pen.filter = `blur(${PENUMBRA * scale}px)`;
  pen.translate(picture.width / 2, picture.height / 2);
  pen.scale(scale, -scale);
  pen.beginPath();
  for (let i = 0; i < rim.length; i += 2) pen.lineTo(rim[i] - size.length / 2, rim[i + 1]);
  pen.closePath();
  pen.fillStyle = "white";
  pen.strokeStyle = "white";
  pen.lineJoin = "round";
  pen.lineWidth = 2 * flange;
  pen.fill();
  pen.stroke();
  return { picture, width, height };
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
        float far = 1.0 - smoothstep(${GRID_WHOLE.toFixed(1)}, ${GRID_REACH.toFixed(1)}, length(vAt));
        gl_FragColor = vec4(colour, 0.30 * line * crowded * far);
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
