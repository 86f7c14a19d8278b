/** A bar of a round length, to scale. */
export interface Bar {
  readonly path: string;
  readonly textX: number;
  readonly y: number;
  readonly length_m: number;
  /** The length as a number of inches or millimetres, and its decimals. */
  readonly value: number;
  readonly decimals: number;
}

const INCH = 0.0254;
const MILLIMETRE = 1e-3;
const METRIC = [1, 2, 5, 10, 20, 50];
const INCHES = [0.05, 0.1, 0.2, 0.5, 1, 2];
const MOST = 0.25;

/** The longest round bar that takes at most a quarter of the width. */
export function scaleBar(scale: number, width: number, y: number, inches: boolean): Bar {
  const unit = inches ? INCH : MILLIMETRE;
  const steps = inches ? INCHES : METRIC;
  const fitting = steps.filter((step) => step * unit * scale <= MOST * width);
  const value = fitting.at(-1) ?? steps[0] ?? 1;
  const length = value * unit * scale;
  const x = 2;
  return {
    path: `M${x} ${y - 4}v8M${x + length} ${y - 4}v8M${x} ${y}h${length}`,
    textX: x + length + 6,
    y,
    length_m: value * unit,
    value,
    decimals: value < 0.1 ? 2 : value < 1 ? 1 : 0,
  };
}
