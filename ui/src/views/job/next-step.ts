import type { JobView } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

/** What a job waits for. */
export type NextStep = { readonly words: PlainKey } & (
  | { readonly is: 'read_cautions' }
  | { readonly is: 'continue'; readonly test: string }
  | { readonly is: 'begin'; readonly where: { bore?: string; testPoint?: string } }
);

/** The one thing to do next: the cautions, then the test begun last, then a new one. */
export function nextStep(job: JobView): NextStep | undefined {
  if (job.hazards.some(({ read }) => !read)) {
    return { is: 'read_cautions', words: 'job.next_cautions' };
  }
  const points = job.bores.flatMap((bore) =>
    bore.test_points.map((point) => ({ bore: bore.bore, ...point })),
  );
  const undecided = points
    .flatMap(({ tests }) => tests)
    .filter(({ decided }) => !decided)
    .sort((a, b) => Date.parse(a.begun.at) - Date.parse(b.begun.at))
    .at(-1);
  if (undecided) return { is: 'continue', words: 'job.next_continue', test: undecided.test };
  const only = points.length === 1 ? points[0] : undefined;
  if (points.length === 0) return undefined;
  return {
    is: 'begin',
    words: 'job.next_begin',
    where: only ? { bore: only.bore, testPoint: only.test_point } : {},
  };
}
