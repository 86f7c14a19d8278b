import { describe, expect, it } from 'vitest';
import { plotDescription, repairPlot, stagesOf } from './repair-plot';
import { repairView } from './testing/repair-view';

describe('the plot of a repair', () => {
  it('shows the three told apart by name and stroke, not by colour alone', () => {
    const plot = repairPlot(stagesOf(repairView()));
    expect(plot?.series.map(({ label }) => label)).toEqual(['before', 'predicted', 'after']);
    expect(new Set(plot?.series.map(({ stroke }) => stroke)).size).toBe(3);
    for (const { band, points } of plot?.series ?? []) expect(band).toHaveLength(points.length);
    expect(plot?.limits).toHaveLength(2);
  });

  it('leaves out what isn’t known yet, and is no plot without any', () => {
    const untested = repairPlot(stagesOf(repairView({ after: null })));
    expect(untested?.series.map(({ label }) => label)).toEqual(['before', 'predicted']);
    expect(repairPlot(stagesOf(repairView({ before: null, forecast: null, after: null })))).toBeUndefined();
  });

  it('is told in one sentence', () => {
    // Between a figure and its unit stands a space that doesn't break.
    expect(plotDescription(stagesOf(repairView())).replace(/\s/g, ' ')).toContain(
      'before 72.0 psi, predicted 65.2 psi, after 64.9 psi',
    );
  });
});
