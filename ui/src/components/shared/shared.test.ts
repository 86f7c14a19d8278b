import { cleanup, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { createRawSnippet } from 'svelte';
import { afterEach, describe, expect, it, vi } from 'vitest';
import AppBar from './AppBar.svelte';
import BigFigure from './BigFigure.svelte';
import CautionCard from './CautionCard.svelte';
import CautionLine from './CautionLine.svelte';
import Choice from './Choice.svelte';
import ErrorNotice from './ErrorNotice.svelte';
import { HAZARD_WORDS, type Hazard } from './hazards';
import Mark from './Mark.svelte';
import Segmented from './Segmented.svelte';
import Sheet from './Sheet.svelte';
import Toast from './Toast.svelte';

const user = userEvent.setup();
const words = (text: string) => createRawSnippet(() => ({ render: () => `<p>${text}</p>` }));

afterEach(cleanup);

describe('the bar', () => {
  it('has undo in sight, greyed while there is nothing to undo', async () => {
    const onundo = vi.fn();
    const { rerender } = render(AppBar, { title: 'Jobs', onundo });
    const nothing = screen.getByRole<HTMLButtonElement>('button', { name: 'Nothing to undo' });
    expect(nothing.disabled).toBe(true);
    await rerender({ undoLabel: 'reading 15.9 inHg' });
    await user.click(screen.getByRole('button', { name: 'Undo: reading 15.9 inHg' }));
    expect(onundo).toHaveBeenCalledOnce();
  });
  it('keeps the rest behind one more tap', async () => {
    const run = vi.fn();
    render(AppBar, { title: 'Jobs', onundo: vi.fn(), menu: [{ label: 'History', run }] });
    await user.click(screen.getByRole('button', { name: 'More' }));
    await user.click(screen.getByRole('button', { name: 'History' }));
    expect(run).toHaveBeenCalledOnce();
    expect(screen.queryByRole('dialog')).toBeNull();
  });
});

describe('a sheet', () => {
  it('is not put away by a stray tap beside it', async () => {
    const onclose = vi.fn();
    render(Sheet, { open: true, title: 'Reading', children: words('inside'), onclose });
    await user.click(screen.getByRole('dialog', { name: 'Reading' }));
    expect(onclose).not.toHaveBeenCalled();
    await user.click(screen.getByRole('button', { name: 'Close' }));
    expect(onclose).toHaveBeenCalledOnce();
  });
  it('may be, where nothing can be lost', async () => {
    const onclose = vi.fn();
    render(Sheet, { open: true, title: 'More', children: words('x'), tapOutsideCloses: true, onclose });
    await user.click(screen.getByRole('dialog', { name: 'More' }));
    expect(onclose).toHaveBeenCalledOnce();
  });
});

describe('a caution', () => {
  it.each(Object.keys(HAZARD_WORDS) as Hazard[])(
    '%s has its signal word, its harm, ways to avoid it, and says who decides',
    async (hazard) => {
      const onacknowledge = vi.fn();
      render(CautionCard, { hazard, onacknowledge });
      expect(screen.getByText(/^(DANGER|WARNING|CAUTION)$/)).toBeTruthy();
      expect(screen.getAllByRole('listitem').length).toBeGreaterThanOrEqual(2);
      expect(screen.getByText(/service information, local rules and trained people/)).toBeTruthy();
      await user.click(screen.getByRole('button', { name: 'Read and understood' }));
      expect(onacknowledge).toHaveBeenCalledOnce();
    },
  );
  it('says when it was acknowledged, and asks no more', () => {
    render(CautionCard, { hazard: 'hot_oil', acknowledged: 'at nine', onacknowledge: vi.fn() });
    expect(screen.getByText('Acknowledged at nine')).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });
  it('stays in view as a line', async () => {
    const onopen = vi.fn();
    render(CautionLine, { hazard: 'high_voltage', onopen });
    await user.click(screen.getByRole('button', { name: /^DANGER High voltage/ }));
    expect(onopen).toHaveBeenCalledOnce();
  });
});

describe('choosing', () => {
  const options = [
    { value: 'rest', label: 'At rest' },
    { value: 'held', label: 'Held' },
  ] as const;
  it('answers one question with one tap', async () => {
    const onchoose = vi.fn();
    render(Choice, { question: 'Where did it stand?', options, value: undefined, onchoose });
    expect(screen.getByRole('group', { name: 'Where did it stand?' })).toBeTruthy();
    await user.click(screen.getByRole('radio', { name: 'Held' }));
    expect(onchoose).toHaveBeenCalledExactlyOnceWith('held');
  });
  it('shows what is chosen', () => {
    render(Segmented, { label: 'Set-up', options, value: 'held', onchoose: vi.fn() });
    expect(screen.getByRole<HTMLInputElement>('radio', { name: 'Held' }).checked).toBe(true);
  });
});

describe('a judgement', () => {
  it('has a mark of its own for each, besides colour', () => {
    const shapes = (['within', 'close', 'outside', 'not_judged'] as const).map((judgement) => {
      const { container } = render(Mark, { judgement });
      const drawn = [...container.querySelectorAll('svg > :not(defs)')].map(
        (part) => `${part.tagName} ${part.getAttribute('d') ?? ''} ${part.getAttribute('class') ?? ''}`,
      );
      cleanup();
      return drawn.join('; ');
    });
    expect(new Set(shapes).size).toBe(4);
  });
  it('says its word to who can’t see it', () => {
    render(Mark, { judgement: 'close' });
    expect(screen.getByRole('img', { name: 'Too close to call' })).toBeTruthy();
  });
});

it('a figure comes with the interval it likely lies in', () => {
  render(BigFigure, { label: 'Shift', number: '+9.5', unit: 'psi', likely: { low: '4', high: '27' } });
  expect(screen.getByText('likely 4 to 27')).toBeTruthy();
});

describe('what was done', () => {
  it('is announced, and can be undone from there', async () => {
    const onundo = vi.fn();
    render(Toast, { text: 'Reading recorded', onundo, onclose: vi.fn() });
    expect(screen.getByRole('status').textContent).toContain('Reading recorded');
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(onundo).toHaveBeenCalledOnce();
  });
});

describe('an error', () => {
  it('says what happened, what it means, what to do, and offers another try where that may help', () => {
    render(ErrorNotice, { error: { code: 'store_locked', params: {}, retry: true }, onretry: vi.fn() });
    const alert = screen.getByRole('alert').textContent ?? '';
    expect(alert).toContain('Another program has the shop’s file open');
    expect(alert).toContain('kept as a draft');
    expect(alert).toContain('Close the other window');
    expect(screen.getByRole('button', { name: 'Try again' })).toBeTruthy();
  });
  it('offers none where it can’t', () => {
    render(ErrorNotice, { error: { code: 'newer_schema', params: {}, retry: false }, onretry: vi.fn() });
    expect(screen.queryByRole('button')).toBeNull();
  });
});
