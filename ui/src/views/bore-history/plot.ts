import type { BoreEvent } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { UNITS, fromSi, unitRow } from '$lib/quantity';
import { show, unitHere } from '$lib/quantity/show';
import type { PlotData, PlotPoint } from '../../components/plot/plot';

/** Half the room that a repair takes between two tests. */
const HALF = 0.3;

/**
 * Readings in the order of their days, each with its uncertainty, and that day's limit. A repair
 * breaks the line; so does, where the events are of several vehicles (`mixed`), the step from one
 * job to another, since no course leads from one bore to another. Nothing with fewer than two
 * readings: there is nothing to see side by side.
 */
export function historyPlot(events: readonly BoreEvent[], mixed: boolean): PlotData | undefined {
  const unit = unitHere('vacuum');
  const here = (pa: number) => fromSi(pa, unit);
  const readings: PlotPoint[] = [];
  const limits: PlotPoint[] = [];
  const marks: { x: number; y: number; u_y: number; label: string }[] = [];
  const gaps: { from: number; to: number; label: string; unnamed: boolean }[] = [];
  let place = 0;
  let last = '';
  let repaired = '';
  for (const { what, job, job_number: number } of events) {
    if (what.is === 'repair') {
      repaired = job;
      continue;
    }
    if (typeof what.mean_vacuum_pa !== 'number') continue;
    const between = place + 0.5;
    // Of several vehicles, a repair is shown where both neighbours are of its own job.
    const shown = mixed ? repaired === job && last === job : repaired !== '';
    if (place > 0 && (shown || (mixed && last !== job))) readings.push({ x: between, y: null });
    if (place > 0 && shown) {
      gaps.push({
        from: between - HALF,
        to: between + HALF,
        label: t('bore_history.plot_repair'),
        // All of them are hatched alike: one name is enough.
        unnamed: gaps.length > 0,
      });
    }
    repaired = '';
    last = job;
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
      // Many jobs lie close together: the axis says what the number is.
      label: mixed ? number : t('bore_history.this_job', { number }),
    });
  }
  if (place < 2) return undefined;
  const { symbol } = UNITS[unit];
  return {
    x: {
      label: t(mixed ? 'bore_history.plot_x_jobs' : 'bore_history.plot_x'),
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
