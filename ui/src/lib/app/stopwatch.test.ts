import { describe, expect, it } from 'vitest';
import { lapped, passed, standing, started, stopped } from './stopwatch';

const NINE = Date.UTC(2026, 10, 30, 9);
const after = (seconds: number) => NINE + seconds * 1000;

describe('a stopwatch', () => {
  it('tells what the clock says, however often it is looked at', () => {
    const watch = started(standing(), NINE);
    for (const seconds of [0.1, 1, 59.9, 3599]) {
      expect(passed(watch, after(seconds))).toBeCloseTo(seconds * 1000, 6);
    }
  });

  it('stands once it is stopped, and goes on from there', () => {
    const once = stopped(started(standing(), NINE), after(12));
    expect(passed(once, after(500))).toBe(12_000);
    expect(passed(stopped(started(once, after(600)), after(603)), after(900))).toBe(15_000);
  });

  it('isn’t set back by a second tap on start', () => {
    const watch = started(started(standing(), NINE), after(5));
    expect(passed(watch, after(7))).toBe(7000);
  });

  it('keeps laps, and none while it stands', () => {
    const watch = lapped(lapped(started(standing(), NINE), after(4)), after(9));
    expect(watch.laps).toEqual([4000, 9000]);
    expect(lapped(stopped(watch, after(10)), after(11)).laps).toEqual([4000, 9000]);
  });

  it('takes nothing off when the clock is put back', () => {
    const watch = started(stopped(started(standing(), NINE), after(20)), after(30));
    expect(passed(watch, after(-3600))).toBe(20_000);
  });

  it('is what is left of it in a draft', () => {
    const watch = lapped(started(standing(), NINE), after(2));
    const found = JSON.parse(JSON.stringify(watch)) as typeof watch;
    expect(passed(found, after(60))).toBe(60_000);
  });
});
