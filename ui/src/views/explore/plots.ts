import type { ConsequenceAnswer, MotionTrace } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import type { PlotData, PlotPoint } from '../../components/plot/plot';
import { feedPlot } from '../../components/test/feed-plot';

/** As set, with its band, beside as found. */
export function settingPlot(set: ConsequenceAnswer, found: ConsequenceAnswer | undefined): PlotData | undefined {
  if (set.answer !== 'computed') return undefined;
  const plot = feedPlot(set);
  const [now] = plot.series;
  if (!now) return undefined;
  const series = [{ ...now, label: t('explore.plot_set') }];
  if (found?.answer === 'computed') {
    const [before] = feedPlot(found).series;
    if (before) {
      const { points } = before;
      series.push({ label: t('explore.plot_found'), tone: 'ink', stroke: 'dotted', points });
    }
  }
  return { ...plot, series };
}

/** Line and regulated pressure against milliseconds. */
export function motionPlot(trace: MotionTrace): PlotData {
  const unit = unitHere('pressure');
  const { symbol } = UNITS[unit];
  const { decimals } = unitRow(unit);
  const points = (pressures: readonly number[]): PlotPoint[] =>
    pressures.map((pa, index) => ({ x: (trace.time_s[index] ?? 0) * 1e3, y: fromSi(pa, unit) }));
  return {
    x: { label: t('explore.time_axis'), name: t('explore.time'), unit: 'ms', decimals: 1 },
    y: {
      label: t('test.plot.feed_axis', { unit: symbol }),
      name: t('test.plot.feed'),
      unit: symbol,
      decimals,
    },
    series: [
      { label: t('explore.line_series'), tone: 'ink', stroke: 'dotted', points: points(trace.line_pa) },
      { label: t('explore.feed_series'), tone: 'within', stroke: 'solid', points: points(trace.feed_pa) },
    ],
  };
}
