import type { Judgement, UncertaintySource } from '$lib/generated/commands';

/**
 * What would do most to settle a call: the largest source of the reading's uncertainty; the
 * barometer where the decision's uncertainty is mostly not the reading's own.
 */
export function settledBy({ readings, decision }: Judgement): UncertaintySource | undefined {
  if (!readings || !decision) return undefined;
  const own = readings.standard_uncertainty_pa ** 2;
  const all = decision.standard_uncertainty_pa ** 2;
  if (all > 2 * own) return 'barometer';
  return readings.contributions[0]?.source;
}
