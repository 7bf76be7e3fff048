import { Matrix4, type PerspectiveCamera, type Ray, Raycaster, Vector2, Vector3 } from "three";
import { type Section, session, type Thing } from "../document/session.ts";
import type { Aim } from "../tools/tool.ts";
import type { ShellView } from "../worker/messages.ts";
import { cutOf } from "./standing.ts";
import type { Figures } from "./use-figures.ts";

/** A line is pointed at from this far, pixels. */
const REACH_PX = 7;

/** Who looks at what, for finding what lies at a spot of the picture. Spots are in pixels from its upper left corner. */
export interface Looking {
  readonly canvas: HTMLCanvasElement;
  readonly camera: PerspectiveCamera;
  readonly figures: Figures;
  readonly shell: ShellView;
  readonly section: Section | null;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

const raycaster = new Raycaster();
const back = new Matrix4();

/** The ray through a spot, in the shell's own coordinates. */
function rayAt(at: Spot, { canvas, camera, figures }: Omit<Looking, "shell" | "section">): Ray {
  const { clientWidth, clientHeight } = canvas;
  raycaster.setFromCamera(new Vector2((2 * at.x) / clientWidth - 1, 1 - (2 * at.y) / clientHeight), camera);
  return raycaster.ray.clone().applyMatrix4(back.copy(figures.stand.matrixWorld).invert());
}

/** The zone, transition or face at a spot. */
export function thingAt(at: Spot, look: Looking): Thing | null {
  const { canvas, camera, figures, shell } = look;
  const ray = rayAt(at, look);
  const kept = keptBy(look);
  const hit = figures.shellFigure.pick(ray, kept);
  const zone = figures.zonesFigure.visible ? figures.zonesFigure.pick(ray, kept) : null;
  if (zone && zone.distance < (hit?.distance ?? Infinity)) return { kind: "zone", id: zone.id };
  if (!hit) return null;
  const pixel = (2 * hit.distance * Math.tan((camera.fov * Math.PI) / 360)) / canvas.clientHeight;
  const line = figures.linesFigure.near(hit.point, REACH_PX * pixel);
  if (line) return { kind: "transition", id: line.id };
  return { kind: "face", id: shell.faces[hit.face].id };
}

/** The place of the shell itself at a spot, whatever lies on it. */
export function aimAt(at: Spot, look: Looking): Aim | null {
  const hit = look.figures.shellFigure.pick(rayAt(at, look), keptBy(look));
  if (!hit) return null;
  const { x, y, z } = hit.point;
  return { point: [x, y, z], face: look.shell.faces[hit.face].id };
}

/** Zones that are shown and lie, by the middle of what is drawn of them, within a box between two spots. */
export function zonesIn(from: Spot, to: Spot, { canvas, camera, figures }: Looking): string[] {
  const { clientWidth, clientHeight } = canvas;
  const { hidden } = session.getState();
  const within = (a: number, b: number, value: number) => value >= Math.min(a, b) && value <= Math.max(a, b);
  return figures.zonesFigure.middles().flatMap(({ id, middle }) => {
    const p = new Vector3(...middle).applyMatrix4(figures.stand.matrixWorld).project(camera);
    const x = ((p.x + 1) * clientWidth) / 2;
    const y = ((1 - p.y) * clientHeight) / 2;
    return !hidden.has(id) && within(from.x, to.x, x) && within(from.y, to.y, y) ? [id] : [];
  });
}

function keptBy({ section, shell }: Looking): (point: Vector3) => boolean {
  const cut = section && cutOf(section, shell);
  return (p) => !cut || cut.n[0] * p.x + cut.n[1] * p.y + cut.n[2] * p.z > cut.d;
}
