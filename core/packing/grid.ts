/**
 * Markers are laid out on a grid of 1/1024 mm. It is a power of two, so that sums and differences of what lies on it are exact:
 * where two pieces touch they do so exactly, and no tolerance is wanted anywhere.
 */
export const GRID = 1 / 1024;

export const onGrid = (mm: number): number => Math.round(mm / GRID) * GRID;

/** The next of so many grids that is not less. */
export const upToGrid = (mm: number, grids = 1): number => Math.ceil(mm / (grids * GRID)) * grids * GRID;

export const downToGrid = (mm: number): number => Math.floor(mm / GRID) * GRID;
