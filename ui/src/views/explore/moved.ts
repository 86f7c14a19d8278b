import type { BoreDrawing } from '$lib/generated/commands';

/** The drawing with its valve at another stroke: what lies in the body stays where it is. */
export function moved(drawing: BoreDrawing, stroke: number): BoreDrawing {
  const by = stroke - drawing.stroke_m;
  // A stroke goes against the spring.
  const along = drawing.spring_on_left ? -by : by;
  return {
    ...drawing,
    stroke_m: stroke,
    lands: drawing.lands.map((land) => ({
      ...land,
      start_m: land.start_m + along,
      end_m: land.end_m + along,
    })),
    // The supply closes and the exhaust opens as the stroke grows.
    openings: drawing.openings.map((opening) => ({
      ...opening,
      open_m: opening.open_m + (opening.supply ? -by : by),
    })),
    seals: [],
  };
}
