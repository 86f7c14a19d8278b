import type { ReliefAnswer, ReliefBehaviour } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow, type Quantity } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import type { PlotData } from '../plot/plot';

/** What the relief passes against pressure, with the worst cross leak as a line to hold. */
export function reliefPlot(relief: ReliefBehaviour, answer: ReliefAnswer): PlotData {
  const axis = (quantity: Quantity) => {
    const unit = unitHere(quantity);
    return { unit, symbol: UNITS[unit].symbol, decimals: unitRow(unit).decimals };
  };
  const pressure = axis('pressure');
  const flow = axis('leak_flow');
  const leak = answer.worst?.leak_flow_m3_s;
  const cracking = fromSi(relief.cracking_pa, pressure.unit);
  const first = relief.override_curve[0];
  return {
    x: {
      label: t('relief.plot.pressure_axis', { unit: pressure.symbol }),
      name: t('relief.plot.pressure'),
      unit: pressure.symbol,
      decimals: pressure.decimals,
    },
    y: {
      label: t('relief.plot.flow_axis', { unit: flow.symbol }),
      name: t('relief.plot.flow'),
      unit: flow.symbol,
      decimals: flow.decimals,
    },
    series: [
      {
        label: t('relief.plot.passes'),
        tone: 'ink',
        stroke: 'solid',
        points: relief.override_curve.map((point) => ({
          x: fromSi(point.pressure_pa, pressure.unit),
          y: fromSi(point.flow_m3_s, flow.unit),
        })),
      },
    ],
    limits: leak ? [{ y: fromSi(leak.high, flow.unit), label: t('relief.plot.leak') }] : [],
    marks: [{ x: cracking, y: 0, label: t('relief.plot.crack') }],
    gaps: first
      ? [{ from: fromSi(first.pressure_pa, pressure.unit), to: cracking, label: t('relief.plot.below') }]
      : [],
  };
}
