import type { OilCheckView, OilCurvePoint } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import type { PlotData, PlotSeries } from '../../components/plot/plot';

/** The predicted bands of both ways with the points that were read; nothing without a prediction. */
export function oilPlot(view: OilCheckView): PlotData | undefined {
  const { answer, figures } = view;
  if (answer.curve.length === 0) return undefined;
  const unit = unitHere('pressure');
  const { symbol } = UNITS[unit];
  const { decimals } = unitRow(unit);
  const here = (pa: number) => fromSi(pa, unit);
  const series = (
    label: 'oil.plot.rising' | 'oil.plot.falling',
    stroke: PlotSeries['stroke'],
    pick: (at: OilCurvePoint) => OilCurvePoint['rising_pa'],
  ): PlotSeries => ({
    label: t(label),
    tone: label === 'oil.plot.rising' ? 'ink' : 'soft',
    stroke,
    points: answer.curve.map((at) => ({ x: here(at.line_pa), y: here(pick(at).likely) })),
    band: answer.curve.map((at) => ({
      x: here(at.line_pa),
      low: here(pick(at).low),
      high: here(pick(at).high),
    })),
  });
  const limit = (pa: number | null | undefined, label: 'test.plot.high' | 'test.plot.low') =>
    typeof pa === 'number' ? [{ y: here(pa), label: t(label) }] : [];
  return {
    x: {
      label: t('test.plot.line_axis', { unit: symbol }),
      name: t('test.plot.line'),
      unit: symbol,
      decimals: unit === 'psi' ? 0 : decimals,
    },
    y: {
      label: t('test.plot.feed_axis', { unit: symbol }),
      name: t('test.plot.feed'),
      unit: symbol,
      decimals,
    },
    series: [
      series('oil.plot.rising', 'dashed', (at) => at.rising_pa),
      series('oil.plot.falling', 'dotted', (at) => at.falling_pa),
    ],
    limits: [
      ...limit(view.specified_high_pa, 'test.plot.high'),
      ...limit(view.specified_low_pa, 'test.plot.low'),
    ],
    marks: (figures.points ?? []).map((point, index) => ({
      x: here(point.line_pa),
      y: here(point.feed_pa),
      u_y: here(answer.points[index]?.expanded_uncertainty_pa ?? 0),
      label: t(point.direction === 'rising' ? 'oil.mark.rising' : 'oil.mark.falling'),
      full: point.direction === 'rising',
      unnamed: true,
    })),
  };
}
