import type { Consequence, ConsequenceAnswer, OperatingPoint, RepairView } from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { show, unitHere } from '$lib/quantity/show';
import type { PlotData, PlotStroke, PlotTone } from '../plot/plot';
import { toneOf } from '../test/feed-plot';

export type StageName = 'before' | 'predicted' | 'after';

/** One of the three pressures beside each other; without one, there is none yet. */
export interface Stage {
  readonly name: StageName;
  readonly title: PlainKey;
  readonly line: PlainKey;
  readonly none: PlainKey;
  readonly consequence: Consequence | undefined;
}

const computed = (answer: ConsequenceAnswer | null | undefined): Consequence | undefined =>
  answer?.answer === 'computed' ? answer : undefined;

/** Before, predicted, after. */
export function stagesOf(view: RepairView): readonly Stage[] {
  return [
    {
      name: 'before',
      title: 'repair.stage.before',
      line: 'repair.plot.before',
      none: 'repair.none.before',
      consequence: computed(view.before?.consequence),
    },
    {
      name: 'predicted',
      title: 'repair.stage.predicted',
      line: 'repair.plot.predicted',
      none: 'repair.none.predicted',
      consequence: computed(view.forecast?.prediction),
    },
    {
      name: 'after',
      title: 'repair.stage.after',
      line: 'repair.plot.after',
      none: 'repair.none.after',
      consequence: computed(view.after?.consequence),
    },
  ];
}

const STROKES = {
  before: 'dotted',
  predicted: 'dashed',
  after: 'solid',
} as const satisfies Record<StageName, PlotStroke>;

const TONES = {
  before: () => 'soft',
  predicted: () => 'ink',
  after: toneOf,
} as const satisfies Record<StageName, (point: OperatingPoint) => PlotTone>;

/** The curve from where feed enters the plot. */
const upper = ({ curve, specified_low_pa: low }: Consequence) =>
  curve.filter(({ line_pa: line }) => line >= 0.75 * low);

/**
 * Feed against line pressure, the three beside each other: told apart by the stroke, the hatching
 * of the band and the name at the line, not by colour alone. Nothing while none is known.
 */
export function repairPlot(
  stages: readonly Stage[],
  checks: RepairView['oil_checks'] = [],
): PlotData | undefined {
  const unit = unitHere('pressure');
  const { symbol } = UNITS[unit];
  const { decimals } = unitRow(unit);
  const here = (pa: number) => fromSi(pa, unit);
  const known = stages.flatMap((stage) =>
    stage.consequence ? [{ ...stage, consequence: stage.consequence }] : [],
  );
  const last = known.at(-1)?.consequence;
  if (!last) return undefined;
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
      // Three lines lie close together where the valve regulates: below it there is less to see.
      from: here(0.75 * last.specified_low_pa),
    },
    series: known.map(({ name, line, consequence }) => ({
      label: t(line),
      tone: TONES[name](consequence.highest_line),
      stroke: STROKES[name],
      points: upper(consequence).map(({ line_pa, measured_feed_pa: feed }) => ({
        x: here(line_pa),
        y: here(feed.likely),
      })),
      band: upper(consequence).map(({ line_pa, measured_feed_pa: feed }) => ({
        x: here(line_pa),
        low: here(feed.low),
        high: here(feed.high),
      })),
    })),
    marks: checks
      .flatMap(({ points }) => points)
      .filter(({ line_pa: line }) => line >= 0.75 * last.specified_low_pa)
      .map((point) => ({
        x: here(point.line_pa),
        y: here(point.feed_pa),
        u_y: here(point.expanded_uncertainty_pa),
        label: t(point.direction === 'rising' ? 'oil.mark.rising' : 'oil.mark.falling'),
        full: point.direction === 'rising',
        unnamed: true,
      })),
    limits: [
      { y: here(last.specified_high_pa), label: t('test.plot.high'), from: here(last.specified_low_pa) },
      { y: here(last.specified_low_pa), label: t('test.plot.low'), from: here(last.specified_low_pa) },
    ],
  };
}

/** The plot in one sentence. */
export function plotDescription(stages: readonly Stage[]): string {
  const known = stages.filter(({ consequence }) => consequence !== undefined);
  const last = known.at(-1)?.consequence;
  if (!last) return '';
  return t('repair.plot.description', {
    line: show(last.highest_line.line_pa, 'pressure'),
    stages: known
      .map(({ line, consequence }) =>
        t('repair.plot.stage', {
          stage: t(line),
          feed: show(consequence?.highest_line.measured_feed_pa.likely ?? 0, 'pressure'),
        }),
      )
      .join(', '),
    low: show(last.specified_low_pa, 'pressure'),
    high: show(last.specified_high_pa, 'pressure'),
  });
}
