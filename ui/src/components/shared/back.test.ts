import { cleanup, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Router } from '$lib/app/router.svelte';
import { Session } from '$lib/app/session.svelte';
import { renderInApp } from '$lib/app/testing/in-app';
import { PageWithHistory } from '$lib/app/testing/page-history';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { emptyEntry, type Entry } from '$lib/quantity';
import Field from './Field.svelte';
import Menu from './Menu.svelte';

const user = userEvent.setup();
afterEach(cleanup);

/** A place reached from another, with a history as browsers keep it. */
async function at(address: string) {
  const page = new PageWithHistory('#/jobs');
  const router = new Router(page as unknown as Window);
  router.follow();
  router.go({ at: 'job', job: address });
  await page.settled();
  return { page, router, session: new Session(new RecordingBackend(), { router }) };
}

describe('the system’s back', () => {
  it('closes the pad, keeps what was typed, and stays at the place', async () => {
    const { page, router, session } = await at('a');
    const onchange = vi.fn<(entry: Entry) => void>();
    const quantity = 'vacuum' as const;
    renderInApp(session, Field, { label: 'Reading 1', quantity, entry: emptyEntry('inHg'), onchange });
    await user.click(screen.getByRole('button', { name: /^Reading 1 / }));
    const pad = within(screen.getByRole('dialog', { name: 'Reading 1' }));
    await user.click(pad.getByRole('button', { name: '1' }));
    await user.click(pad.getByRole('button', { name: '5' }));
    await page.systemBack();
    await expect.poll(() => screen.queryByRole('dialog')).toBeNull();
    expect(router.route).toEqual({ at: 'job', job: 'a' });
    expect(onchange.mock.lastCall?.[0]?.text).toBe('15');
    expect(screen.getByRole('button', { name: /^Reading 1 15/ })).toBeTruthy();
    await page.systemBack();
    expect(router.route).toEqual({ at: 'jobs' });
  });

  it('closes a menu, and what is chosen from it takes the menu’s place', async () => {
    const { page, router, session } = await at('a');
    const items = [{ label: 'Guide', run: () => router.go({ at: 'guide' }) }];
    renderInApp(session, Menu, { items });
    await user.click(screen.getByRole('button', { name: 'More' }));
    await page.systemBack();
    await expect.poll(() => screen.queryByRole('dialog')).toBeNull();
    await user.click(screen.getByRole('button', { name: 'More' }));
    await user.click(screen.getByRole('button', { name: 'Guide' }));
    await page.settled();
    expect(router.route).toEqual({ at: 'guide' });
    await page.systemBack();
    expect(router.route).toEqual({ at: 'job', job: 'a' });
  });
});
