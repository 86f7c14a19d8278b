import { cleanup, render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Entry, emptyEntry, storedEntry, toSi } from '$lib/quantity';
import { settings } from '$lib/settings/settings.svelte';
import Field from './Field.svelte';

const user = userEvent.setup();

beforeEach(() => {
  settings.locale = 'en-US';
});
afterEach(cleanup);

function show(entry: Entry, more: Record<string, unknown> = {}) {
  const onchange = vi.fn<(entry: Entry) => void>();
  render(Field, { label: 'Reading 1', quantity: 'vacuum', entry, onchange, ...more });
  const last = () => onchange.mock.lastCall?.[0];
  const openPad = async () => {
    await user.click(screen.getByRole('button', { name: /^Reading 1 / }));
    return within(screen.getByRole('dialog', { name: 'Reading 1' }));
  };
  return { onchange, last, openPad };
}

describe('typing a reading on the pad', () => {
  it('takes digits and the decimal mark by thumb, each kept at once', async () => {
    const { last, openPad, onchange } = show(emptyEntry('inHg'));
    const pad = await openPad();
    for (const key of ['1', '5', 'Decimal mark', '9']) {
      await user.click(pad.getByRole('button', { name: key }));
    }
    expect(last()).toEqual({ text: '15.9', unit: 'inHg', storedSi: null });
    expect(onchange).toHaveBeenCalledTimes(4);
    expect(pad.getByText(/= 53\.8.kPa/)).toBeTruthy();
  });

  it('has the decimal mark of the locale', async () => {
    settings.locale = 'de-DE';
    const { last, openPad } = show(emptyEntry('inHg'));
    const pad = await openPad();
    for (const key of ['1', 'Decimal mark', '5']) {
      await user.click(pad.getByRole('button', { name: key }));
    }
    expect(last()?.text).toBe('1,5');
  });

  it('works from a keyboard, and Enter goes to the next field', async () => {
    const onnext = vi.fn();
    const { last, openPad } = show(emptyEntry('inHg'), { onnext, nextLabel: 'Reading 2' });
    const pad = await openPad();
    const input = pad.getByRole('textbox', { name: 'Reading 1' });
    expect(document.activeElement).toBe(input);
    await user.keyboard('23.5');
    expect(last()?.text).toBe('23.5');
    expect(pad.getByRole('button', { name: 'Next: Reading 2' })).toBeTruthy();
    await user.keyboard('{Enter}');
    expect(onnext).toHaveBeenCalledOnce();
    expect(screen.queryByRole('dialog', { name: 'Reading 1' })).toBeNull();
  });

  it('loses nothing when it is closed half-way', async () => {
    const { last, openPad } = show(emptyEntry('inHg'));
    const pad = await openPad();
    await user.click(pad.getByRole('button', { name: '2' }));
    await user.click(pad.getByRole('button', { name: 'Close' }));
    expect(last()?.text).toBe('2');
    const again = await openPad();
    await user.click(again.getByRole('button', { name: '3' }));
    expect(last()?.text).toBe('23');
  });

  it('replaces a stored value by the first digit', async () => {
    const { last, openPad } = show(storedEntry(toSi(27.5, 'inHg'), 'inHg', 'en-US'));
    const pad = await openPad();
    await user.click(pad.getByRole('button', { name: '3' }));
    expect(last()).toEqual({ text: '3', unit: 'inHg', storedSi: null });
  });

  it('offers a minus only where one can be meant', async () => {
    const { openPad } = show(emptyEntry('inHg'));
    const pad = await openPad();
    expect(pad.queryByRole('button', { name: 'Change sign' })).toBeNull();
    cleanup();
    const altitude = show(emptyEntry('ft'), { quantity: 'altitude' });
    const second = await altitude.openPad();
    await user.click(second.getByRole('button', { name: '5' }));
    await user.click(second.getByRole('button', { name: 'Change sign' }));
    expect(altitude.last()?.text).toBe('\u22125');
  });
});

describe('the unit', () => {
  it('is one tap away, and a stored value stays what it was', async () => {
    const stored = toSi(27.5, 'inHg');
    const { last } = show(storedEntry(stored, 'inHg', 'en-US'));
    await user.click(screen.getByRole('button', { name: 'Reading 1: unit inHg, change' }));
    await user.click(screen.getByRole('radio', { name: 'kPa' }));
    expect(last()).toMatchObject({ unit: 'vacuum_kPa', storedSi: stored });
    expect(screen.getByText('93.126')).toBeTruthy();
  });
});

describe('what can’t be read', () => {
  it('is kept and told at the field', () => {
    show({ text: '1,234', unit: 'inHg', storedSi: null });
    expect(screen.getByText('1,234')).toBeTruthy();
    expect(screen.getByText(/could mean 1234 or 1\.234/)).toBeTruthy();
  });
  it('stands beside what the core found', () => {
    const findings = [{ severity: 'warning', text: 'Looks corrected to sea level.' }];
    show({ text: 'abc', unit: 'inHg', storedSi: null }, { findings });
    expect(screen.getByText(/kept as typed/)).toBeTruthy();
    expect(screen.getByText(/sea level/)).toBeTruthy();
  });
  it('is not told of a field that is merely empty', () => {
    show(emptyEntry('inHg'));
    expect(screen.queryByText('No number yet.')).toBeNull();
  });
});
