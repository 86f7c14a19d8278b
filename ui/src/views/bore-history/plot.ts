import type { BoreEvent } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { show, unitHere } from '$lib/quantity/show';
import type { PlotData, PlotPoint } from '../../components/plot/plot';

/** Half the room that a repair takes between two tests. */
const HALF = 0.3;

/**
 * Readings in the order of their days, each with its uncertainty, and that day's limit. A repair
 * breaks the line. Nothing with fewer than two readings: there is no course to see.
 */
export function historyPlot(events: readonly BoreEvent[]): PlotData | undefined {
  const unit = unitHere('vacuum');
  const here = (pa: number) => fromSi(pa, unit);
  const readings: PlotPoint[] = [];
  const limits: PlotPoint[] = [];
  const marks: { x: number; y: number; u_y: number; label: string }[] = [];
  const gaps: { from: number; to: number; label: string }[] = [];
  let place = 0;
  for (const { what, job_number: number } of events) {
    if (what.is === 'repair') {
      // Between the test before and the one after; two repairs in a row share the place.
      if (place === 0) continue;
      const at = place + 0.5;
      if (gaps.at(-1)?.from !== at - HALF) {
        gaps.push({ from: at - HALF, to: at + HALF, label: t('bore_history.plot_repair') });
        readings.push({ x: at, y: null });
      }
      continue;
    }
    if (typeof what.mean_vacuum_pa !== 'number') continue;
    place += 1;
    const y = here(what.mean_vacuum_pa);
    readings.push({ x: place, y });
    limits.push({
      x: place,
      y: typeof what.limit_vacuum_pa === 'number' ? here(what.limit_vacuum_pa) : null,
    });
    marks.push({
      x: place,
      y,
      u_y: here(what.expanded_uncertainty_pa ?? 0),
      label: t('bore_history.this_job', { number }),
    });
  }
  if (place < 2) return undefined;
  const { symbol } = UNITS[unit];
  return {
    x: {
      label: t('bore_history.plot_x'),
      name: t('bore_history.plot_x_short'),
      unit: '',
      decimals: 0,
      from: 0.5,
      to: place + 0.5,
    },
    y: {
      label: t('bore_history.plot_y', { unit: symbol }),
      name: t('bore_history.plot_y_short'),
      unit: symbol,
      decimals: unitRow(unit).decimals,
    },
    series: [
      { label: t('bore_history.plot_readings'), tone: 'ink', stroke: 'solid', points: readings },
      ...(limits.some(({ y }) => y !== null)
        ? [
            {
              label: t('bore_history.plot_limits'),
              tone: 'soft' as const,
              stroke: 'dashed' as const,
              points: limits,
            },
          ]
        : []),
    ],
    marks,
    gaps,
  };
}

/** The plot in a sentence. */
export function historyDescription(events: readonly BoreEvent[]): string {
  const means = events.flatMap(({ what }) =>
    what.is === 'test' && typeof what.mean_vacuum_pa === 'number' ? [what.mean_vacuum_pa] : [],
  );
  return t('bore_history.plot_description', {
    tests: means.length,
    repairs: events.filter(({ what }) => what.is === 'repair').length,
    first: show(means[0] ?? 0, 'vacuum'),
    last: show(means.at(-1) ?? 0, 'vacuum'),
  });
}
