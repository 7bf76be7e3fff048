import type { Desk } from "../../../desk.ts";
import { selectedZones, session } from "../../../document/session.ts";
import { letterScale } from "../../../look/letter-scale.ts";
import { themeOf } from "../../../look/theme.ts";
import { outlineOf } from "../../../tools/rim-places.ts";
import { drawFace } from "./draw-face.ts";
import { drawBrush, drawGhost, drawMoved } from "./draw-ghost.ts";
import { drawHandles, drawPointer } from "./draw-handles.ts";
import { drawRuler, HEAD } from "./draw-ruler.ts";
import { drawMarks, drawNames, drawWall, type Lit } from "./draw-wall.ts";
import type { Point } from "./flat-lines.ts";
import type { Ground, Moved } from "./grips.ts";
import { type Inks, readInks, Swatches } from "./inks.ts";
import { Pen } from "./pen.ts";
import { type Board, boardOf } from "./shown.ts";
import { isLaying, tapeState } from "./tape-state.ts";
import { panned, showing, type Window, wholeOf, zoomed } from "./window.ts";

/**
 * The canvas of the tape: it listens to the stores and draws when something changed, once a frame. What the pointer does is in
 * `tape-pointer.ts` and `tape-keys.ts`.
 */
export class TapeBoard {
  readonly canvas: HTMLCanvasElement;
  readonly desk: Desk;
  board: Board | null = null;
  /** Where the pointer or the cross moved by keys is; null: nowhere on the tape. */
  point: Point | null = null;
  /** A zone that is being moved, or was and has not been laid again yet. */
  moved: Moved | null = null;
  /** The way of the tool in hand while it draws a row, a stretch or a free band. */
  path: readonly Point[] = [];
  private window: Window | null = null;
  private inks: {
    readonly theme: string;
    readonly dpr: number;
    readonly inks: Inks;
    readonly swatches: Swatches;
  } | null = null;
  private frame = 0;
  private drawn: (() => void)[] = [];
  private readonly leave: (() => void)[];

  constructor(canvas: HTMLCanvasElement, desk: Desk) {
    this.canvas = canvas;
    this.desk = desk;
    const resized = new ResizeObserver(() => {
      if (this.window && this.isWhole) this.window = null;
      this.redraw();
    });
    resized.observe(canvas);
    this.leave = [
      () => resized.disconnect(),
      session.subscribe(() => this.redraw()),
      desk.hand.offer.subscribe(() => this.redraw()),
      desk.results.subscribe((now, before) => {
        if (now.tape !== before.tape) this.takeTape();
      }),
      desk.project.state.subscribe((now, before) => {
        if (now.dragging === null && now.project === before.history.project) this.moved = null;
        this.redraw();
      }),
      tapeState.subscribe((now, before) => {
        if (now.shown !== before.shown) {
          this.window = null;
          this.point = null;
          this.takeTape();
        }
        this.redraw();
      }),
    ];
    this.takeTape();
  }

  end(): void {
    cancelAnimationFrame(this.frame);
    for (const leave of this.leave) leave();
  }

  /** Calls back after each drawing. Gives back how to leave. */
  onDrawn(listener: () => void): () => void {
    this.drawn.push(listener);
    return () => {
      this.drawn = this.drawn.filter((each) => each !== listener);
    };
  }

  redraw(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.draw());
  }

  /** What edits work with; null where nothing is shown or the rim cannot be built. */
  get ground(): Ground | null {
    const { board, desk } = this;
    const { project } = desk.project.state.getState();
    const outline = outlineOf(project.shell.outline);
    return board && outline && { project, outline, lines: desk.results.getState().lines, board };
  }

  /** Millimetres a pixel, of those that grow with the letters. */
  get grain(): number {
    return 1 / this.seen().scale;
  }

  /** The point of the drawing at a place of the canvas, pixels. */
  pointAt(x: number, y: number): Point {
    const { x: left, y: top, scale } = this.seen();
    const letters = letterScale();
    return { along: left + x / letters / scale, down: top + (y / letters - HEAD) / scale };
  }

  /** About a place of the canvas, pixels. */
  zoom(factor: number, x = this.canvas.clientWidth / 2, y = this.canvas.clientHeight / 2): void {
    if (!this.board) return;
    const letters = letterScale();
    const about = [x / letters, y / letters - HEAD] as const;
    this.window = zoomed(this.seen(), factor, about, this.board.extent, this.paper);
    this.redraw();
  }

  pan(dx: number, dy: number): void {
    if (!this.board) return;
    const letters = letterScale();
    this.window = panned(this.seen(), dx / letters, dy / letters, this.board.extent, this.paper);
    this.redraw();
  }

  /** Brings a point into sight. */
  show({ along, down }: Point): void {
    if (!this.board) return;
    this.window = showing(this.seen(), along, down, this.board.extent, this.paper);
    this.redraw();
  }

  fit(): void {
    this.window = null;
    this.redraw();
  }

  /** Where a point of the drawing is on the canvas, pixels. */
  placeOf({ along, down }: Point): readonly [number, number] {
    const { x, y, scale } = this.seen();
    const letters = letterScale();
    return [(along - x) * scale * letters, (HEAD + (down - y) * scale) * letters];
  }

  /** The paper under the tape's head, in pixels that grow with the letters: all is drawn and measured in them. */
  private get paper() {
    const letters = letterScale();
    const { clientWidth, clientHeight } = this.canvas;
    return { width: clientWidth / letters, height: Math.max(1, clientHeight / letters - HEAD) };
  }

  private get isWhole(): boolean {
    return (
      this.board !== null &&
      this.window !== null &&
      this.window.scale <= wholeOf(this.board.extent, this.paper).scale
    );
  }

  private seen(): Window {
    if (!this.board) return { x: 0, y: 0, scale: 0.05 };
    return this.window ?? wholeOf(this.board.extent, this.paper);
  }

  private takeTape(): void {
    this.board = boardOf(this.desk.results.getState(), tapeState.getState().shown);
    this.moved = null;
    this.redraw();
  }

  private draw(): void {
    this.frame = 0;
    this.paint();
    for (const listener of this.drawn) listener();
  }

  private paint(): void {
    const { canvas, board } = this;
    const letters = letterScale();
    const [width, height] = [canvas.clientWidth / letters, canvas.clientHeight / letters];
    const dpr = Math.min(2, devicePixelRatio) * letters;
    if (canvas.width !== Math.round(width * dpr)) canvas.width = Math.round(width * dpr);
    if (canvas.height !== Math.round(height * dpr)) canvas.height = Math.round(height * dpr);
    const ink = canvas.getContext("2d");
    if (!ink) throw new Error("The browser gives no canvas to draw the tape on.");
    ink.setTransform(dpr, 0, 0, dpr, 0, 0);
    ink.clearRect(0, 0, width, height);
    if (!board) return;
    const { inks, swatches } = this.inksFor(dpr);
    const pen = new Pen(ink, inks, swatches, this.seen(), HEAD);
    const lit = this.lit();
    const state = session.getState();
    if (board.face) drawFace(pen, board.face, board.placed, lit);
    else {
      drawWall(pen, board.wall, board.placed, lit);
      drawNames(pen, board.wall, height);
    }
    const { ground } = this;
    if (ground) {
      // What passes the shallow centre is seen at both ends, and nowhere beside the tape.
      ink.save();
      ink.beginPath();
      if (!board.face) ink.rect(pen.x(0), 0, pen.x(board.extent.x1) - pen.x(0), height);
      else ink.rect(0, 0, width, height);
      ink.clip();
      if (this.moved) drawMoved(pen, ground, this.moved);
      const brushed = this.path.length > 1;
      // A free band that is drawn here is seen by the way of its brush.
      for (const { zone, good } of this.offered())
        if (zone.kind !== "stroke" || !brushed) drawGhost(pen, ground, zone, good);
      ink.restore();
      drawHandles(pen, ground, selectedZones(state));
    }
    if (state.tool === "free-band" && this.path.length > 1) drawBrush(pen, this.path, state.brush);
    if (this.point) drawPointer(pen, this.point, isLaying());
    drawRuler(pen, board.extent.x0, board.extent.x1, state.lengths, width);
    if (!board.face) drawMarks(pen, board.wall, width);
  }

  /** What the tool in hand offers to lay. */
  private offered() {
    const offer = this.desk.hand.offer.getState().offer;
    return (offer?.zones ?? []).map((zone, i) => ({ zone, good: offer?.tried?.[i]?.ok !== false }));
  }

  private lit(): Lit {
    const { hovered, selected, hidden } = session.getState();
    const things = hovered ? [hovered, ...selected] : selected;
    const ids = (zones: boolean) =>
      new Set(things.filter(({ kind }) => (kind === "zone") === zones).map(({ id }) => id));
    return { zones: ids(true), others: ids(false), hidden };
  }

  private inksFor(dpr: number) {
    const theme = themeOf(session.getState());
    if (this.inks?.theme !== theme || this.inks.dpr !== dpr) {
      const inks = readInks(this.canvas);
      this.inks = { theme, dpr, inks, swatches: new Swatches(inks, dpr) };
    }
    return this.inks;
  }
}
