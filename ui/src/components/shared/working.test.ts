import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { flushSync } from 'svelte';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Working } from '.';

beforeEach(() => vi.useFakeTimers({ shouldAdvanceTime: true }));
afterEach(() => vi.useRealTimers());

const pass = (milliseconds: number) => {
  vi.advanceTimersByTime(milliseconds);
  flushSync();
};

describe('something under way', () => {
  it('says nothing for the first fifth of a second, then what it is, then for how long', () => {
    render(Working, { what: 'Reading …', goesOn: true });
    pass(150);
    expect(screen.queryByText('Reading …')).toBeNull();
    pass(100);
    expect(screen.getByRole('status').textContent).toBe('Reading …');
    expect(screen.queryByText(/seconds/)).toBeNull();
    pass(3000);
    expect(screen.getByText('3 seconds')).toBeTruthy();
    expect(screen.getByText(/you may go back meanwhile/)).toBeTruthy();
  });

  it('shows how far it is and can be stopped, where that is known', async () => {
    const stop = vi.fn();
    render(Working, { what: 'Drawing', share: 0.4, oncancel: stop, cancelLabel: 'Stop' });
    pass(250);
    expect(screen.getByRole('progressbar', { name: 'Drawing' }).getAttribute('value')).toBe('0.4');
    await userEvent.setup({ advanceTimers: vi.advanceTimersByTime }).click(screen.getByRole('button', { name: 'Stop' }));
    expect(stop).toHaveBeenCalledOnce();
  });
});
