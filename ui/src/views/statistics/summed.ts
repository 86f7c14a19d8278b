import type { CaseSpread, RepairCase, RepairGroup } from '$lib/generated/commands';
import { formatShare, t } from '$lib/messages';
import { fromSi, UNITS, type Quantity } from '$lib/quantity';
import { show, showNumber, unitHere } from '$lib/quantity/show';
import type { PairedData } from '../../components/plot/paired';
import { REPAIR_OPTIONS } from '../../components/repair/words';

/** The group in words. */
export function groupWords(group: RepairGroup | RepairCase): string {
  return t('statistics.group', {
    bore: group.bore_name || t('statistics.bore_unknown'),
    option: t(REPAIR_OPTIONS[group.option].label),
  });
}

function spreadWords(what: string, of: CaseSpread, quantity: Quantity): string {
  return t('statistics.spread', {
    what,
    median: show(of.median, quantity),
    low: show(of.low, quantity),
    high: show(of.high, quantity),
    cases: of.cases,
  });
}

/** What can be said of all cases of a group together, line by line; nothing of too few. */
export function summaryWords(group: RepairGroup): string[] {
  const { summary } = group;
  if (!summary) return [];
  const { share, watched_days: days } = summary;
  const lines = [
    t('statistics.share', {
      share: group.came_back,
      cases: group.cases,
      // Outward, so that the interval never looks narrower than it is.
      low: formatShare(Math.floor(100 * share.low) / 100),
      high: formatShare(Math.ceil(100 * share.high) / 100),
      confidence: formatShare(0.95),
    }),
    t('statistics.watched', {
      median: showNumber(days.median, days.median % 1 === 0 ? 0 : 1),
      low: showNumber(days.low, 0),
      high: showNumber(days.high, 0),
    }),
  ];
  const rows = [
    [summary.vacuum_before_pa, 'statistics.vacuum_before', 'vacuum'],
    [summary.vacuum_after_pa, 'statistics.vacuum_after', 'vacuum'],
    [summary.gap_before_m3, 'statistics.gap_before', 'gap_factor'],
    [summary.gap_after_m3, 'statistics.gap_after', 'gap_factor'],
  ] as const;
  for (const [spread, name, quantity] of rows) {
    if (spread) lines.push(spreadWords(t(name), spread, quantity));
  }
  return lines;
}

/** Readings before and after; nothing where nothing is summed up, or too few were read twice. */
export function pairedPlot(
  group: RepairGroup,
  cases: readonly RepairCase[],
  least: number,
): PairedData | undefined {
  if (!group.summary) return undefined;
  const unit = unitHere('vacuum');
  const own = cases.filter((one) => one.bore === group.bore && one.option === group.option);
  const pairs = own.flatMap(({ repair, before, after, comeback }) =>
    before && after
      ? [
          {
            key: repair,
            before: fromSi(before.vacuum_pa, unit),
            after: fromSi(after.vacuum_pa, unit),
            back: Boolean(comeback),
          },
        ]
      : [],
  );
  if (pairs.length < least) return undefined;
  const { vacuum_before_pa: from, vacuum_after_pa: to } = group.summary;
  return {
    pairs,
    axis: t('statistics.plot_axis', { unit: UNITS[unit].symbol }),
    before: t('statistics.plot_before'),
    after: t('statistics.plot_after'),
    count: t('statistics.plot_cases', { count: pairs.length, cases: group.cases }),
    held: t('statistics.plot_held'),
    back: t('statistics.plot_back'),
    ...(from && to
      ? {
          median: {
            before: fromSi(from.median, unit),
            after: fromSi(to.median, unit),
            name: t('statistics.plot_median'),
          },
        }
      : {}),
  };
}
