import { useEffect, useMemo } from "react";
import { Group } from "three";
import { Ground } from "./ground.ts";
import { LinesFigure } from "./lines-figure.ts";
import { OfferFigure } from "./offer-figure.ts";
import { ShellFigure } from "./shell-figure.ts";
import { ZonesFigure } from "./zones-figure.ts";

/** All that is drawn. Imperative geometry lives in these; they are given what to show and keep nothing else. */
export interface Figures {
  /** Holds what is in the shell's own coordinates, and stands it up in the scene. */
  readonly stand: Group;
  readonly shellFigure: ShellFigure;
  readonly linesFigure: LinesFigure;
  readonly zonesFigure: ZonesFigure;
  readonly offerFigure: OfferFigure;
  readonly ground: Ground;
}

/** Makes the figures once and disposes of them with the scene. */
export function useFigures(): Figures {
  const figures = useMemo(() => {
    const stand = new Group();
    stand.matrixAutoUpdate = false;
    const made = {
      stand,
      shellFigure: new ShellFigure(),
      linesFigure: new LinesFigure(),
      zonesFigure: new ZonesFigure(),
      offerFigure: new OfferFigure(),
      ground: new Ground(),
    };
    stand.add(made.shellFigure, made.linesFigure, made.zonesFigure, made.offerFigure);
    return made;
  }, []);
  useEffect(
    () => () => {
      figures.shellFigure.dispose();
      figures.linesFigure.dispose();
      figures.zonesFigure.dispose();
      figures.offerFigure.dispose();
      figures.ground.dispose();
    },
    [figures],
  );
  return figures;
}
