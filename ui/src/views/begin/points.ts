import type { BoreDrawing, JobView, TestPoint, UnitView } from '$lib/generated/commands';

/** A test point of the job's unit, with what one needs to find it on the bench. */
export interface Point {
  readonly id: string;
  readonly name: string;
  readonly bore: string;
  readonly boreName: string;
  readonly tested: boolean;
  readonly point: TestPoint | undefined;
  readonly drawing: BoreDrawing | undefined;
}

export function pointsOf(job: JobView, unit: UnitView): Point[] {
  return job.bores.flatMap(({ bore, name: boreName, test_points: points }) =>
    points.map(({ test_point: id, name, tests }) => ({
      id,
      name,
      bore,
      boreName,
      tested: tests.length > 0,
      point: unit.profile.bores
        .find((profile) => profile.id === bore)
        ?.test_points.find(([at]) => at === id)?.[1],
      drawing: unit.drawings.find((drawing) => drawing.bore === bore),
    })),
  );
}

/** The one chosen, else the first that nobody has tested yet. */
export function startPoint(points: readonly Point[], chosen: string | undefined): Point | undefined {
  return points.find(({ id }) => id === chosen) ?? points.find(({ tested }) => !tested) ?? points[0];
}
