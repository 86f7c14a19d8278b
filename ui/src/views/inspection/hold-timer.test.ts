import { cleanup, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { flushSync } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { standing, type Stopwatch } from '$lib/app/stopwatch';
import { settings } from '$lib/settings/settings.svelte';
import HoldTimer from './HoldTimer.svelte';

const NINE = new Date(2026, 10, 30, 9).getTime();
const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime });

beforeEach(() => {
  settings.locale = 'en-US';
  vi.useFakeTimers({ now: NINE });
});
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const press = (name: string) => user.click(screen.getByRole('button', { name }));
function pass(seconds: number) {
  vi.advanceTimersByTime(seconds * 1000);
  flushSync();
}

function show(watch: Stopwatch = standing()) {
  const ontake = vi.fn<(seconds: number) => void>();
  render(HoldTimer, { watch, ontake });
  return ontake;
}

describe('the timer of a hold', () => {
  it('starts and stops by its one large button, and hands the time over', async () => {
    const ontake = show();
    await press('Start');
    pass(42.3);
    expect(screen.getByText('42.3 s')).toBeTruthy();
    await press('Stop');
    expect(ontake).toHaveBeenCalledWith(42.3);
    pass(60);
    expect(screen.getByText('42.3 s')).toBeTruthy();
    expect(screen.getByRole('status').textContent).toBe('Stopped at 42.3 s.');
    await press('Go on');
    pass(7.7);
    await press('Stop');
    expect(ontake).toHaveBeenLastCalledWith(50);
  });

  it('has gone on when its screen comes back', () => {
    show({ startedAt: NINE - 125_400, before: 0, laps: [] });
    pass(0.1);
    expect(screen.getByText('2:05.5')).toBeTruthy();
  });

  it('marks laps, each of which can be taken over', async () => {
    const ontake = show();
    await press('Start');
    pass(10);
    await press('Lap');
    pass(5);
    await press('Lap');
    await press('Stop');
    await user.click(screen.getByRole('button', { name: /^Lap 1/ }));
    expect(ontake).toHaveBeenLastCalledWith(10);
    await press('Set to zero');
    expect(screen.queryByRole('button', { name: /^Lap 1/ })).toBeNull();
    expect(screen.getByText('0.0 s')).toBeTruthy();
  });

  it('shows whole seconds to who asked for less motion', async () => {
    vi.spyOn(window, 'matchMedia').mockImplementation(
      (query) => ({ matches: query.includes('reduced-motion') }) as MediaQueryList,
    );
    show();
    await press('Start');
    pass(3);
    expect(screen.getByText('3 s')).toBeTruthy();
    pass(0.5);
    expect(screen.getByText('3 s')).toBeTruthy();
  });
});
