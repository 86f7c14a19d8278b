import { beforeEach, describe, expect, it } from 'vitest';
import { settings } from '$lib/settings/settings.svelte';
import { benchDay } from './bench-day';
import { LastValues } from './last-values.svelte';
import { RecordingBackend } from './testing/recording-backend';

const MORNING = benchDay(new Date(2026, 10, 30, 8));
const EVENING = benchDay(new Date(2026, 10, 30, 18));
const NEXT_DAY = benchDay(new Date(2026, 11, 1, 8));
const typed = (text: string) => ({ text, unit: 'inHg', storedSi: null }) as const;

beforeEach(() => {
  settings.locale = 'en-US';
});

function shop(backend = new RecordingBackend()) {
  const read = (name: 'draft.get', args: { key: string }) => backend.call(name, args);
  return { backend, values: new LastValues({ read }) };
}

describe('the last value typed', () => {
  it('is offered on the same job on any day, and on the same day for any job', () => {
    const { values } = shop();
    values.keep('blank', 'job-1', typed('27.7'), MORNING);
    expect(values.of('blank', 'job-1', NEXT_DAY)).toEqual(typed('27.7'));
    expect(values.of('blank', 'job-2', EVENING)).toEqual(typed('27.7'));
    expect(values.of('blank', 'job-2', NEXT_DAY)).toBeUndefined();
    expect(values.of('dead_head', 'job-1', MORNING)).toBeUndefined();
  });

  it('comes back after a restart', async () => {
    const { backend, values } = shop();
    values.keep('blank', 'job-1', typed('27.7'), MORNING);
    await expect.poll(() => backend.drafts.size).toBe(1);
    const again = shop(backend).values;
    await again.open();
    expect(again.of('blank', 'job-1', MORNING)).toEqual(typed('27.7'));
  });

  it('isn’t offered where its decimal mark would be read otherwise', () => {
    const { values } = shop();
    values.keep('blank', 'job-1', typed('27.7'), MORNING);
    settings.locale = 'de-DE';
    expect(values.of('blank', 'job-1', MORNING)).toBeUndefined();
  });

  it('isn’t kept without end', () => {
    const { backend, values } = shop();
    for (let number = 0; number < 300; number += 1) {
      values.keep(`thing ${number}`, 'job-1', typed(`${number}`), MORNING);
    }
    expect(values.of('thing 299', 'job-1', MORNING)).toEqual(typed('299'));
    expect(values.of('thing 0', 'job-1', MORNING)).toBeUndefined();
    expect(Object.keys(backend.drafts.get('values.last') as object).length).toBeLessThanOrEqual(120);
  });

  it('that was kept by something else is passed over', async () => {
    const { backend, values } = shop();
    backend.drafts.set('values.last', { blank: { text: 3 }, other: null, odd: { unit: 'furlong' } });
    await values.open();
    expect(values.of('blank', 'job-1', MORNING)).toBeUndefined();
  });
});
