import { t } from '$lib/messages';
import { type PlotData, bandAt, gapAt, valueAt } from './plot';

/** What the plot says at one x. */
export interface Reading {
  readonly x: number;
  /** Where the lines are, to be dotted. */
  readonly dots: readonly number[];
  readonly text: string;
}

type Write = (value: number, decimals: number) => string;

/** One series at one x in words: its value, its band, or that there is none. */
export function cellAt(data: PlotData, index: number, x: number, write: Write): string {
  const series = data.series[index];
  if (!series) return '';
  const value = valueAt(series.points, x);
  const band = bandAt(series, x);
  if (value === null) return gapAt(data.gaps, x)?.label ?? t('plot.no_value');
  const number = write(value, data.y.decimals);
  return band
    ? t('plot.value_band', {
        value: number,
        low: write(band.low, data.y.decimals),
        high: write(band.high, data.y.decimals),
      })
    : number;
}

export function readoutAt(data: PlotData, x: number, write: Write): Reading {
  const parts = data.series.map((series, index) =>
    t('plot.series_value', { series: series.label, value: cellAt(data, index, x, write) }),
  );
  const marks = (data.marks ?? [])
    .filter((mark) => mark.x === x)
    .map((mark) => t('plot.series_value', { series: mark.label, value: write(mark.y, data.y.decimals) }));
  return {
    x,
    dots: data.series
      .map((series) => valueAt(series.points, x))
      .filter((value): value is number => value !== null),
    text: t('plot.readout', {
      axis: data.x.name,
      x: write(x, data.x.decimals),
      unit: data.x.unit,
      values: [...parts, ...marks].join(' · '),
    }),
  };
}
