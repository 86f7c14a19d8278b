import type { Consequence, CurvePoint, OperatingPoint } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import type { PlotData, PlotGap, PlotTone } from '../plot/plot';
import { SPECIFICATION_ANSWERS } from './words';

/** Feed against line pressure in the shop's unit: as measured with its band, as new, the limits. */
export function feedPlot(consequence: Consequence): PlotData {
  const unit = unitHere('pressure');
  const { symbol } = UNITS[unit];
  const { decimals } = unitRow(unit);
  const here = (pa: number) => fromSi(pa, unit);
  const { curve, idle, highest_line: highest } = consequence;
  const mark = (point: OperatingPoint, label: string) => ({
    x: here(point.line_pa),
    y: here(point.measured_feed_pa.likely),
    label,
  });
  return {
    x: { label: t('test.plot.line_axis', { unit: symbol }), name: t('test.plot.line'), unit: symbol, decimals: unit === 'psi' ? 0 : decimals },
    y: { label: t('test.plot.feed_axis', { unit: symbol }), name: t('test.plot.feed'), unit: symbol, decimals },
    series: [
      {
        label: t('test.plot.measured'),
        tone: toneOf(highest),
        stroke: 'solid',
        points: curve.map(({ line_pa, measured_feed_pa: feed }) => ({
          x: here(line_pa),
          y: here(feed.likely),
        })),
        band: curve.map(({ line_pa, measured_feed_pa: feed }) => ({
          x: here(line_pa),
          low: here(feed.low),
          high: here(feed.high),
        })),
      },
      {
        label: t('test.plot.new'),
        tone: 'ink',
        stroke: 'dotted',
        points: curve.map(({ line_pa, new_feed_pa: feed }) => ({
          x: here(line_pa),
          y: here(feed.likely),
        })),
      },
    ],
    limits: [
      { y: here(consequence.specified_high_pa), label: t('test.plot.high'), from: here(consequence.specified_low_pa) },
      { y: here(consequence.specified_low_pa), label: t('test.plot.low'), from: here(consequence.specified_low_pa) },
    ],
    marks: [mark(idle, t('test.plot.idle')), mark(highest, t('test.plot.highest'))],
    gaps: gapsOf(curve).map(({ from, to, label }) => ({ from: here(from), to: here(to), label })),
  };
}

/** The measured line has the colour of what it means at the highest line pressure. */
export function toneOf({ measured_state: state, against_specification: answer }: OperatingPoint): PlotTone {
  if (state !== 'regulating') return 'outside';
  if (!answer) return 'soft';
  const { mark } = SPECIFICATION_ANSWERS[answer];
  return mark;
}

/**
 * Runs of line pressures where the valve, as measured, doesn't regulate. Between a point that does
 * and one that doesn't, the change is put half-way: the curve says no more.
 */
export function gapsOf(curve: readonly CurvePoint[]): PlotGap[] {
  const gaps: PlotGap[] = [];
  let from: number | undefined;
  curve.forEach((point, index) => {
    const before = curve[index - 1];
    const between = before ? (before.line_pa + point.line_pa) / 2 : point.line_pa;
    const regulates = point.measured_state === 'regulating';
    if (!regulates && from === undefined) from = between;
    if (regulates && from !== undefined) {
      gaps.push({ from, to: between, label: t('test.plot.gap') });
      from = undefined;
    }
  });
  const last = curve.at(-1);
  if (from !== undefined && last) gaps.push({ from, to: last.line_pa, label: t('test.plot.gap') });
  return gaps;
}
