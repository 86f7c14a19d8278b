import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import ReportView from './ReportView.svelte';

const user = userEvent.setup();
const PAGE = '<!DOCTYPE html><title>Job 7</title>';
let saved: Blob[] = [];

beforeEach(() => {
  saved = [];
  vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
    saved.push(blob as Blob);
    return 'blob:report';
  });
  vi.spyOn(URL, 'revokeObjectURL').mockImplementation(() => {});
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

async function opened() {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'report.write': () => ({ file: 3, name: 'job-7-2026-04-14.html', bytes: PAGE.length }),
    'file.read': () => ({ base64: btoa(PAGE), bytes: PAGE.length }),
  });
  renderInApp(await openSession(backend), ReportView, { job: 'j-7' });
  return backend;
}

describe('the report of a job', () => {
  it('is written without the customer unless asked for, and downloaded whole', async () => {
    const backend = await opened();
    await user.click(screen.getByRole('button', { name: 'Write the report' }));
    await screen.findByText('job-7-2026-04-14.html');
    expect(backend.argsOf('report.write')).toEqual([
      { job: 'j-7', personal: false, version: 'technical', format: 'pdf', locale: 'en-US' },
    ]);
    await user.click(screen.getByRole('button', { name: 'Save it on this device' }));
    await waitFor(() => expect(saved).toHaveLength(1));
    expect(await saved[0]?.text()).toBe(PAGE);
  });

  it('is written anew when the answer about the customer changes', async () => {
    const backend = await opened();
    await user.click(screen.getByRole('button', { name: 'Write the report' }));
    await screen.findByText('job-7-2026-04-14.html');
    await user.click(screen.getByRole('radio', { name: /Put them in/ }));
    expect(screen.queryByText('job-7-2026-04-14.html')).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Write the report' }));
    await screen.findByText('job-7-2026-04-14.html');
    expect(backend.argsOf('report.write').at(-1)?.personal).toBe(true);
  });

  it('is the customer’s page, or a web page, where that is asked for', async () => {
    const backend = await opened();
    await user.click(screen.getByRole('radio', { name: /For the customer/ }));
    await user.click(screen.getByRole('radio', { name: /Web page/ }));
    await user.click(screen.getByRole('button', { name: 'Write the report' }));
    await screen.findByText('job-7-2026-04-14.html');
    expect(backend.argsOf('report.write')).toEqual([
      { job: 'j-7', personal: false, version: 'customer', format: 'html', locale: 'en-US' },
    ]);
    await user.click(screen.getByRole('radio', { name: /For the shop/ }));
    expect(screen.queryByText('job-7-2026-04-14.html')).toBeNull();
  });

  it('says what failed and keeps the report', async () => {
    const backend = await opened();
    await user.click(screen.getByRole('button', { name: 'Write the report' }));
    await screen.findByText('job-7-2026-04-14.html');
    backend.answer({
      'file.read': () => {
        throw refusal('file_unwritable');
      },
    });
    await user.click(screen.getByRole('button', { name: 'Save it on this device' }));
    await screen.findByText('The file can’t be written there.');
    expect(screen.getByText('job-7-2026-04-14.html')).toBeTruthy();
    expect(saved).toEqual([]);
  });
});
