import type { ExploreField, ExploreFigure, Setting } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Quantity } from '$lib/quantity';

/** Steps of a slider: fine enough for a thumb, coarse enough for an arrow key. */
export const STEPS = 120;

export const FIELDS = {
  clearance_m: { words: 'explore.clearance_m', quantity: 'clearance' },
  spring_load_n: { words: 'explore.spring_load_n', quantity: 'force' },
  spring_rate_n_per_m: { words: 'explore.spring_rate_n_per_m', quantity: 'spring_rate' },
  orifice_m: { words: 'explore.orifice_m', quantity: 'length' },
  demand_m3_s: { words: 'explore.demand_m3_s', quantity: 'flow' },
  friction_n: { words: 'explore.friction_n', quantity: 'force' },
  oil_temperature_k: { words: 'explore.oil_temperature_k', quantity: 'temperature' },
  line_pa: { words: 'explore.line_pa', quantity: 'pressure' },
} as const satisfies Record<ExploreField, { words: PlainKey; quantity: Quantity }>;

/** Half and double lie equally far apart, except where a figure may be nothing or is a temperature. */
const isShare = ({ field, low }: ExploreFigure) => low > 0 && field !== 'oil_temperature_k';

/** The value at a slider's position, 0 to STEPS. */
export function valueAt(figure: ExploreFigure, position: number): number {
  const { low, high } = figure;
  const share = Math.min(1, Math.max(0, position / STEPS));
  return isShare(figure) ? low * (high / low) ** share : low + share * (high - low);
}

/** The position that is nearest to a value. */
export function positionOf(figure: ExploreFigure, value: number): number {
  const { low, high } = figure;
  const share = isShare(figure)
    ? Math.log(value / low) / Math.log(high / low)
    : (value - low) / (high - low);
  return Math.round(Math.min(1, Math.max(0, share)) * STEPS);
}

/** Only what differs from what was found is set. */
export function withFigure(setting: Setting, figure: ExploreFigure, position: number): Setting {
  const back = position === positionOf(figure, figure.now);
  return { ...setting, [figure.field]: back ? null : valueAt(figure, position) };
}

/** What a figure stands at. */
export const valueOf = (setting: Setting, figure: ExploreFigure): number =>
  setting[figure.field] ?? figure.now;
