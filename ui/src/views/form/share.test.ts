// A made file goes to the system's share sheet where the page has one, and is saved elsewhere. Checked
// against the Web Share API (W3C Recommendation, 2023-05-30): what may be shared is asked first,
// a press shares, and AbortError says that the person put the sheet away.
import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import PassOnView from '../exchange/PassOnView.svelte';
import ReportView from '../report/ReportView.svelte';

const user = userEvent.setup();
/** As long as two pieces, not all of it letters. */
const BYTES = Uint8Array.from([...'%PDF-1.7\n'].map((letter) => letter.charCodeAt(0)).concat([0, 255, 128, 10]));
const SPLIT = 5;
const NAME = 'job-0147-2026-11-25.pdf';
const BUNDLE = {
  file: 7,
  name: 'job-0147-2026-11-25.vvb',
  bytes: BYTES.length,
  records: 12,
  jobs: 1,
  left_out: 0, left_out_text: 0, already_there: 0, photos: 0, photo_bytes: 0, sealed: false,
};

const base64 = (bytes: Uint8Array) => btoa(String.fromCharCode(...bytes));

/** A core whose files come in two pieces. */
function core() {
  let made = 0;
  return new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'report.write': () => ({ file: ++made, name: NAME, bytes: BYTES.length }),
    'bundle.make': () => BUNDLE,
    'file.read': ({ from = 0 }) => ({
      base64: base64(from === 0 ? BYTES.slice(0, SPLIT) : BYTES.slice(from)),
      bytes: BYTES.length,
    }),
  });
}

interface Sheet {
  share(data: ShareData): Promise<void>;
  canShare?(data: ShareData): boolean;
}

/** A page with the system's share sheet. */
function pageWith({ share, canShare = () => true }: Sheet) {
  const sheet = {
    share: vi.fn<Sheet['share']>(share),
    canShare: vi.fn<NonNullable<Sheet['canShare']>>(canShare),
  };
  for (const [name, value] of Object.entries(sheet)) {
    Object.defineProperty(navigator, name, { value, configurable: true });
  }
  return sheet;
}

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  for (const name of ['share', 'canShare']) Reflect.deleteProperty(navigator, name);
});

const button = (name: string) => screen.queryByRole('button', { name });
const ready = () => waitFor(() => expect(button('Share it')).toHaveProperty('disabled', false));
const press = async (name: string) => user.click(await screen.findByRole('button', { name }));
const bytesOf = async (file: File | undefined) => new Uint8Array((await file?.arrayBuffer()) ?? []);

async function report(backend = core()) {
  renderInApp(await openSession(backend), ReportView, { job: 'j-7' });
  await press('Write the report');
  await screen.findByText(NAME);
  return backend;
}

describe('a made file', () => {
  it('is only saved where the page has no share sheet', async () => {
    const backend = await report();
    expect(button('Save it on this device')).toBeTruthy();
    expect(button('Share it')).toBeNull();
    expect(backend.argsOf('file.read')).toEqual([]);
  });

  it('is only saved where the system shares no such files', async () => {
    const sheet = pageWith({ share: async () => undefined, canShare: () => false });
    const backend = await report();
    expect(button('Save it on this device')).toBeTruthy();
    expect(button('Share it')).toBeNull();
    expect(backend.argsOf('file.read')).toEqual([]);
    expect(sheet.share).not.toHaveBeenCalled();
  });

  it('is read beforehand, and handed over whole in the press itself', async () => {
    let pressing = false;
    const sheet = pageWith({
      share: async () => {
        // Nothing may lie between the press and this: the wish that a press is passes by.
        expect(pressing).toBe(true);
      },
    });
    const backend = await report();
    await ready();
    expect(backend.argsOf('file.read')).toEqual([
      { file: 1, from: 0 },
      { file: 1, from: SPLIT },
    ]);
    pressing = true;
    button('Share it')?.click();
    pressing = false;
    expect(sheet.share).toHaveBeenCalledOnce();
    const data = sheet.share.mock.calls[0]?.[0];
    expect(Object.keys(data ?? {})).toEqual(['files']);
    expect(data?.files).toHaveLength(1);
    const [file] = data?.files ?? [];
    expect([file?.name, file?.type]).toEqual([NAME, 'application/pdf']);
    expect(await bytesOf(file)).toEqual(BYTES);
    await ready();
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('can be a bundle, and saved beside', async () => {
    const sheet = pageWith({ share: async () => undefined });
    renderInApp(await openSession(core(), '#/pass-on'), PassOnView, {});
    await press('Make the file');
    await ready();
    await press('Share it');
    const [file] = sheet.share.mock.calls[0]?.[0].files ?? [];
    expect([file?.name, file?.type]).toEqual([BUNDLE.name, 'application/vnd.valvewright.bundle+zip']);
    expect(await bytesOf(file)).toEqual(BYTES);
    expect(button('Save it on this device')).toHaveProperty('disabled', false);
  });

  it('stays, and nothing is said, when the sheet is put away', async () => {
    const sheet = pageWith({
      share: () => Promise.reject(new DOMException('Share canceled', 'AbortError')),
    });
    await report();
    await ready();
    await press('Share it');
    expect(sheet.share).toHaveBeenCalledOnce();
    await ready();
    expect(screen.queryByRole('alert')).toBeNull();
    expect(screen.getByText(NAME)).toBeTruthy();
  });

  it.each([
    new DOMException('Permission denied', 'NotAllowedError'),
    new DOMException('Another share is under way', 'InvalidStateError'),
    new DOMException('The target failed', 'DataError'),
    new TypeError('Not these files'),
  ])('is to be saved instead when the system refuses: $name', async (cause) => {
    pageWith({ share: () => Promise.reject(cause) });
    await report();
    await ready();
    await press('Share it');
    await screen.findByText('The file couldn’t be shared.');
    await screen.findByText('Save it on this device instead, and send it from there.');
    expect(screen.getByText(NAME)).toBeTruthy();
    expect(button('Save it on this device')).toHaveProperty('disabled', false);
    // Tried again, the old refusal is gone while it is tried.
    pageWith({ share: async () => undefined });
    await press('Share it');
    await waitFor(() => expect(screen.queryByRole('alert')).toBeNull());
  });

  it('can be saved while a sheet never says that it is done', async () => {
    // As a web view on Windows was reported to do (MicrosoftEdge/WebView2Feedback issue 1696).
    let asked = 0;
    pageWith({
      share: () => {
        asked += 1;
        const earlier = new DOMException('An earlier share has not yet completed', 'InvalidStateError');
        return asked === 1 ? new Promise(() => undefined) : Promise.reject(earlier);
      },
    });
    vi.spyOn(URL, 'createObjectURL').mockReturnValue('blob:made');
    const clicked = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockReturnValue();
    await report();
    await ready();
    await press('Share it');
    await press('Share it');
    await screen.findByText('Save it on this device instead, and send it from there.');
    await press('Save it on this device');
    await waitFor(() => expect(clicked).toHaveBeenCalledOnce());
    await waitFor(() => expect(screen.queryByRole('alert')).toBeNull());
  });

  it('is not offered to the sheet when it can’t be read, and that is told', async () => {
    const sheet = pageWith({ share: async () => undefined });
    const backend = core();
    backend.answer({
      'file.read': () => {
        throw refusal('file_unreadable');
      },
    });
    await report(backend);
    await screen.findByText('The file can’t be read.');
    expect(button('Share it')).toBeNull();
    expect(button('Save it on this device')).toBeTruthy();
    expect(sheet.share).not.toHaveBeenCalled();
  });

  it('made with the customer is never shared as the one without', async () => {
    const sheet = pageWith({ share: async () => undefined });
    const backend = core();
    let answerLate: (() => void) | undefined;
    const late = new Promise<void>((go) => {
      answerLate = go;
    });
    // The first file, with the customer, is read slowly; the second at once.
    backend.answer({
      'file.read': async ({ file, from = 0 }) => {
        if (file === 1) await late;
        const whole = Uint8Array.from([...`%PDF file ${file}`].map((letter) => letter.charCodeAt(0)));
        const bytes = whole.slice(from);
        return { base64: base64(bytes), bytes: whole.length };
      },
    });
    renderInApp(await openSession(backend), ReportView, { job: 'j-7' });
    await user.click(screen.getByRole('radio', { name: /Put them in/ }));
    await press('Write the report');
    await screen.findByText(NAME);
    expect(button('Share it')).toHaveProperty('disabled', true);
    await user.click(screen.getByRole('radio', { name: /Leave them out/ }));
    expect(button('Share it')).toBeNull();
    await press('Write the report');
    await ready();
    answerLate?.();
    await late;
    await press('Share it');
    const [file] = sheet.share.mock.calls[0]?.[0].files ?? [];
    expect(new TextDecoder().decode(await bytesOf(file))).toBe('%PDF file 2');
    expect(backend.argsOf('report.write').map(({ personal }) => personal)).toEqual([true, false]);
  });
});
