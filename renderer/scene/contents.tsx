import { useFrame, useThree } from "@react-three/fiber";
import { type RefObject, useEffect, useMemo, useRef } from "react";
import { Matrix4, Plane, Vector3 } from "three";
import { useStore } from "zustand";
import type { Desk } from "../desk.ts";
import { session } from "../document/session.ts";
import { themeOf } from "../look/theme.ts";
import { inShowroom, seenDimensions, seenGrid, seenSection, seenThrough, seenZones } from "./as-seen.ts";
import { Camera } from "./camera.tsx";
import { CloseUp } from "./close-up.tsx";
import { Dimensions } from "./dimensions.tsx";
import { Handles } from "./handles/handles.tsx";
import { usePace } from "./pace.ts";
import { usePalette } from "./palette.ts";
import { offerPictures } from "./picture.ts";
import { SectionHandle } from "./section-handle.tsx";
import { SmoothFrame } from "./smooth-frame.ts";
import { cutOf, standingMatrix } from "./standing.ts";
import { Turntable } from "./turntable.tsx";
import { useFigures } from "./use-figures.ts";
import { usePointing } from "./use-pointing.ts";

/** Everything in the scene: it shows the stores, and keeps nothing of its own but geometry. */
export function Contents(props: {
  readonly desk: Desk;
  readonly readout: RefObject<HTMLDivElement | null>;
  readonly box: RefObject<HTMLDivElement | null>;
}) {
  const { desk, readout, box } = props;
  const shell = useStore(desk.results, (r) => r.shell);
  const lines = useStore(desk.results, (r) => r.lines);
  const zones = useStore(desk.results, (r) => r.zones);
  const place = useStore(session, (s) => s.place);
  const standing = useStore(session, (s) => s.standing[s.place]);
  const seeThrough = useStore(session, seenThrough);
  const section = useStore(session, seenSection);
  const grid = useStore(session, seenGrid);
  const dimensions = useStore(session, seenDimensions);
  const hovered = useStore(session, (s) => s.hovered);
  const selected = useStore(session, (s) => s.selected);
  const hidden = useStore(session, (s) => s.hidden);
  const showroom = useStore(session, inShowroom);
  const shown = useStore(session, (s) => s.shown);
  const turning = useStore(session, (s) => s.turning);
  const dark = useStore(session, themeOf) === "slate";
  const palette = usePalette();
  const invalidate = useThree((three) => three.invalidate);

  const figures = useFigures();
  const { stand, shellFigure, linesFigure, zonesFigure, offerFigure, ground } = figures;

  useEffect(() => {
    if (!shell) return;
    shellFigure.setShell(shell);
    ground.setShell(shell);
    const { hovered: now } = session.getState();
    shellFigure.light(now?.kind === "face" ? now.id : null);
    invalidate();
  }, [shell, shellFigure, ground, invalidate]);

  useEffect(() => {
    linesFigure.setLines(lines);
    invalidate();
  }, [lines, linesFigure, invalidate]);

  const inDrawingOffice = place === "drawing-office";
  useEffect(() => {
    zonesFigure.visible = !inDrawingOffice;
    invalidate();
  }, [inDrawingOffice, zonesFigure, invalidate]);

  useEffect(() => {
    // What is not seen is neither made nor drawn.
    if (inDrawingOffice) return;
    zonesFigure.setZones(seenZones(zones, showroom, { hidden, shown }));
    invalidate();
  }, [zones, inDrawingOffice, hidden, showroom, shown, zonesFigure, invalidate]);

  useEffect(() => {
    shellFigure.paint(palette, seeThrough);
    linesFigure.paint(palette);
    zonesFigure.paint(palette);
    offerFigure.paint(palette);
    ground.paint(palette, dark);
    ground.show(grid);
    invalidate();
  }, [
    palette,
    dark,
    seeThrough,
    grid,
    shellFigure,
    linesFigure,
    zonesFigure,
    offerFigure,
    ground,
    invalidate,
  ]);

  useEffect(() => {
    const chosen = showroom ? [] : selected;
    const lit = hovered ? [hovered, ...chosen] : chosen;
    const idOf = (kind: "face" | "transition") => lit.find((thing) => thing.kind === kind)?.id ?? null;
    shellFigure.light(idOf("face"));
    linesFigure.light(idOf("transition"));
    zonesFigure.light(new Set(lit.filter(({ kind }) => kind === "zone").map(({ id }) => id)));
    invalidate();
  }, [hovered, selected, showroom, shellFigure, linesFigure, zonesFigure, invalidate]);

  const size = shell?.size ?? null;
  useEffect(() => {
    if (!size) return;
    stand.matrix.copy(standingMatrix(size, standing));
    stand.matrixWorldNeedsUpdate = true;
    stand.updateMatrixWorld(true);
    invalidate();
  }, [size, standing, stand, invalidate]);

  useEffect(() => {
    if (!shell) return;
    const cut = section && cutOf(section, shell);
    const world =
      cut && new Plane(new Vector3(...cut.n), -cut.d).applyMatrix4(standingMatrix(shell.size, standing));
    shellFigure.setSection(world, cut);
    linesFigure.setSection(world);
    zonesFigure.setSection(world);
    offerFigure.setSection(world);
    invalidate();
  }, [section, shell, standing, shellFigure, linesFigure, zonesFigure, offerFigure, invalidate]);

  // Before the contour is drawn: it is that of the mesh at hand.
  const quick = usePace(shellFigure, desk);
  const eye = useRef(new Vector3());
  const back = useRef(new Matrix4());
  useFrame(({ camera }) => {
    back.current.copy(stand.matrixWorld).invert();
    shellFigure.lookFrom(eye.current.copy(camera.position).applyMatrix4(back.current));
    ground.face(camera.position.x, camera.position.y);
  });

  const smooth = useMemo(() => new SmoothFrame(), []);
  useEffect(() => () => smooth.dispose(), [smooth]);
  // With a turn of its own three's own drawing of the frame is left out.
  useFrame(({ gl, scene, camera }) => {
    if (quick.current) gl.render(scene, camera);
    else smooth.draw(gl, scene, camera);
  }, 1);

  const gl = useThree((three) => three.gl);
  const scene = useThree((three) => three.scene);
  const camera = useThree((three) => three.camera);
  useEffect(
    () =>
      offerPictures(gl, () => {
        shellFigure.draft = false;
        shellFigure.lookFrom(eye.current);
        smooth.draw(gl, scene, camera);
      }),
    [gl, scene, camera, shellFigure, smooth],
  );

  useEffect(
    () =>
      desk.hand.offer.subscribe(({ offer }) => {
        // While a new place is being tried the one before stays, so that nothing flickers.
        if (offer && !offer.tried) return;
        offerFigure.show((offer?.tried ?? []).flatMap((each) => (each.ok ? [each.zone] : [])));
        invalidate();
      }),
    [desk, offerFigure, invalidate],
  );

  usePointing({ desk, figures, shell, section, readout, box });

  return (
    <>
      <Camera shell={shell} standing={standing} />
      {showroom && turning && <Turntable />}
      <CloseUp desk={desk} figures={figures} />
      <Handles desk={desk} figures={figures} />
      <primitive object={ground} />
      <primitive object={stand} />
      {shell && dimensions && <Dimensions shell={shell} standing={standing} />}
      {shell && section && <SectionHandle shell={shell} standing={standing} section={section} />}
    </>
  );
}
