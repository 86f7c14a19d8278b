import type { MovingFigure, SelfOscillation } from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';
import { show, showNumber } from '$lib/quantity/show';

/** When line steps up, s. */
export const ONSET_S = 0.005;
/** How long it is followed, s. */
export const SHOWN_S = 0.06;
/** How many times slower the valve is shown. */
export const SLOWED = 100;

export const FIGURE_WORDS = {
  spool_mass: 'explore.spool_mass',
  damping: 'explore.damping',
  breakaway: 'explore.breakaway',
  feed_volume: 'explore.feed_volume',
  reaction_volume: 'explore.reaction_volume',
  chamber_volume: 'explore.chamber_volume',
  liquid_bulk_modulus: 'explore.liquid_bulk_modulus',
  entrained_air: 'explore.entrained_air',
  air_exponent: 'explore.air_exponent',
  barometer: 'explore.barometer',
} as const satisfies Record<MovingFigure, PlainKey>;

/** Whether it swings by itself; nothing where it doesn't, or was followed too briefly to tell. */
export function swingWords(oscillation: SelfOscillation): string {
  if (typeof oscillation === 'string') return '';
  const [how, swing] =
    'lasting' in oscillation
      ? (['explore.swings', oscillation.lasting] as const)
      : (['explore.swings_more', oscillation.growing] as const);
  return t(how, {
    span: show(swing.peak_to_peak_pa, 'pressure'),
    frequency: showNumber(swing.frequency_hz, 0),
  });
}
