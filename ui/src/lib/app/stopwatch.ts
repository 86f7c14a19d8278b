/**
 * A stopwatch that is only times by the clock, so that it neither drifts nor stops when its screen
 * is left or the app is killed: what has passed is worked out when somebody looks.
 */
export interface Stopwatch {
  /** When it was started last, ms since 1970; none: it stands. */
  startedAt: number | null;
  /** What had passed before that, ms. */
  before: number;
  /** What had passed at each lap, ms. */
  laps: number[];
}

export const standing = (): Stopwatch => ({ startedAt: null, before: 0, laps: [] });

/** What has passed, ms. A clock that was put back in between takes nothing off. */
export function passed({ startedAt, before }: Stopwatch, now: number): number {
  return before + (startedAt === null ? 0 : Math.max(0, now - startedAt));
}

export function started(watch: Stopwatch, now: number): Stopwatch {
  return watch.startedAt === null ? { ...watch, startedAt: now } : watch;
}

export function stopped(watch: Stopwatch, now: number): Stopwatch {
  return { ...watch, startedAt: null, before: passed(watch, now) };
}

export function lapped(watch: Stopwatch, now: number): Stopwatch {
  return watch.startedAt === null ? watch : { ...watch, laps: [...watch.laps, passed(watch, now)] };
}

/** As a time on record: to a tenth of a second, which is more than a thumb is worth. */
export const secondsOf = (ms: number): number => Math.round(ms / 100) / 10;
