import { describe, expect, it } from 'vitest';
import { settings } from '../settings/settings.svelte';
import { HereAndNow } from './here-and-now.svelte';
import { openSession } from './testing/in-app';
import { RecordingBackend } from './testing/recording-backend';
import { overview } from './testing/shop';

const KEY = 'device.here';

describe('what this device remembers', () => {
  it('is there again after a restart', async () => {
    const backend = new RecordingBackend({ 'shop.overview': () => overview() });
    const store = { read: backend.call.bind(backend) };
    const first = new HereAndNow(store);
    await first.open();
    expect(first.known).toBe(false);
    first.altitude_m = 1480;
    first.singleKeys = false;
    await first.keep();
    const second = new HereAndNow(store);
    await second.open();
    expect([second.altitude_m, second.singleKeys, second.known]).toEqual([1480, false, true]);
  });

  it('is left aside where it can’t be read or is something else', async () => {
    const backend = new RecordingBackend();
    backend.drafts.set(KEY, { altitude_m: 'high', single_keys: 3 });
    const here = new HereAndNow({ read: backend.call.bind(backend) });
    await here.open();
    expect([here.altitude_m, here.singleKeys]).toEqual([null, true]);
    const broken = new HereAndNow({ read: () => Promise.reject(new Error('no store')) });
    await broken.open();
    expect(broken.known).toBe(false);
  });
});

describe('the first start', () => {
  const state = { version: '0', store_path: '/s', trouble: null };
  const shop = (author: string | null) => overview(author ? { author } : { author: null });

  it('shows numbers as the country of the device reads them, once', async () => {
    const backend = new RecordingBackend({
      'app.state': () => state,
      'shop.overview': () => ({ ...shop(null), settings: { ...shop(null).settings, locale: 'de-DE' } }),
      'settings.put': (args) => args,
    });
    await openSession(backend);
    expect(backend.argsOf('settings.put').map(({ pressure, length }) => [pressure, length])).toEqual([['kPa', 'mm']]);
    expect(settings.units.vacuum).toBe('kPa');
    backend.drafts.set(KEY, {});
    await openSession(backend);
    expect(backend.argsOf('settings.put')).toHaveLength(1);
  });

  it('leaves the units alone where somebody works already', async () => {
    const backend = new RecordingBackend({
      'app.state': () => state,
      'shop.overview': () => ({ ...shop('p-1'), settings: { ...shop('p-1').settings, locale: 'de-DE' } }),
    });
    await openSession(backend);
    expect(backend.argsOf('settings.put')).toEqual([]);
  });
});
