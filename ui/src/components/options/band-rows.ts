import type { RepairOutlook } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { show, showInterval } from '$lib/quantity/show';
import { computed } from './rows';
import { STANDINGS, WAYS } from './words';

/** One option on the common axis; places are shares of its width. */
export interface BandRow {
  readonly way: RepairOutlook['way'];
  readonly label: string;
  readonly value: string;
  readonly mark: (typeof STANDINGS)[RepairOutlook['standing']]['mark'];
  readonly band?: { readonly low: number; readonly likely: number; readonly high: number } | undefined;
  /** In one sentence, for who doesn't see it. */
  readonly said: string;
}

export interface BandChart {
  readonly rows: readonly BandRow[];
  readonly specified: { readonly low: number; readonly high: number };
  readonly note: string;
}

/** All options on one axis, as it is before first; nothing while no pressure is predicted. */
export function bandChart(options: readonly RepairOutlook[]): BandChart | undefined {
  const known = options.flatMap(({ hot }) => computed(hot) ?? []);
  const [first] = known;
  if (!first) return undefined;
  const { specified_low_pa: low, specified_high_pa: high } = first;
  const spans = known.map(({ highest_line: point }) => point.measured_feed_pa);
  const least = Math.min(low, ...spans.map((span) => span.low));
  const most = Math.max(high, ...spans.map((span) => span.high));
  const air = 0.04 * (most - least);
  const place = (pa: number) => (pa - least + air) / (most - least + 2 * air);
  const before = options.filter(({ way }) => way === 'leave');
  const others = options.filter(({ way }) => way !== 'leave');
  const rows = [...before, ...others].map((option): BandRow => {
    const label = t(WAYS[option.way].label);
    const { mark } = STANDINGS[option.standing];
    const span = computed(option.hot)?.highest_line.measured_feed_pa;
    if (!span) {
      const said = t('options.chart_none', { way: label });
      return { way: option.way, label, value: t('options.chart_unknown'), mark, said };
    }
    const ends = showInterval(span.low, span.high, 'pressure');
    return {
      way: option.way,
      label,
      mark,
      value: show(span.likely, 'pressure'),
      band: { low: place(span.low), likely: place(span.likely), high: place(span.high) },
      said: t('options.chart_row', {
        way: label,
        likely: show(span.likely, 'pressure'),
        low: ends.low,
        high: `${ends.high} ${ends.unit}`,
      }),
    };
  });
  return {
    rows,
    specified: { low: place(low), high: place(high) },
    note: t('options.chart_note', { low: show(low, 'pressure'), high: show(high, 'pressure') }),
  };
}
