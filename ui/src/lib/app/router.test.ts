import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Router } from './router.svelte';
import { PageWithHistory } from './testing/page-history';

let stop: () => void;
let router: Router;

beforeEach(() => {
  window.history.replaceState(null, '', '#/jobs');
  router = new Router();
  stop = router.follow();
});
afterEach(() => {
  stop();
  document.body.replaceChildren();
});

function link(address: string): HTMLAnchorElement {
  const it = document.createElement('a');
  it.setAttribute('href', address);
  it.append(document.createElement('span'));
  document.body.append(it);
  return it;
}

describe('going somewhere', () => {
  it('shows in the address, so that a reload leads to the same place', () => {
    router.go({ at: 'job', job: 'a' });
    expect(window.location.hash).toBe('#/job/a');
    expect(new Router().route).toEqual({ at: 'job', job: 'a' });
  });

  it('follows a link pressed anywhere inside it', () => {
    link('#/job/b').firstElementChild?.dispatchEvent(
      new MouseEvent('click', { bubbles: true, cancelable: true }),
    );
    expect(router.route).toEqual({ at: 'job', job: 'b' });
  });

  it('leaves a link alone that is to open in another tab', () => {
    const event = new MouseEvent('click', { bubbles: true, cancelable: true, ctrlKey: true });
    link('#/job/b').dispatchEvent(event);
    expect(event.defaultPrevented).toBe(false);
  });

  it('in place of a form leaves no way back into it', () => {
    router.go({ at: 'job_new' });
    const entries = window.history.length;
    router.go({ at: 'job', job: 'c' }, { replace: true });
    expect(window.history.length).toBe(entries);
    expect(router.route).toEqual({ at: 'job', job: 'c' });
  });
});

describe('back', () => {
  it('leads to the parent when the place was opened by its address', () => {
    router.back({ at: 'units' });
    expect(router.route).toEqual({ at: 'units' });
  });
});

describe('something over the place', () => {
  let page: PageWithHistory;
  let over: Router;
  let leave: () => void;
  let taken: string[];
  const put = (name: string) => over.cover(() => taken.push(name));

  beforeEach(async () => {
    taken = [];
    page = new PageWithHistory('#/jobs');
    over = new Router(page as unknown as Window);
    leave = over.follow();
    over.go({ at: 'job', job: 'a' });
    await page.settled();
  });
  afterEach(() => leave());

  it('is what back takes away, once, and the place stays', async () => {
    put('pad');
    await page.settled();
    await page.systemBack();
    expect(taken).toEqual(['pad']);
    expect(over.route).toEqual({ at: 'job', job: 'a' });
    await page.systemBack();
    expect(taken).toEqual(['pad']);
    expect(over.route).toEqual({ at: 'jobs' });
  });

  it('is taken away one by one, the uppermost first', async () => {
    put('picture');
    await page.settled();
    put('caption');
    await page.settled();
    await page.systemBack();
    expect(taken).toEqual(['caption']);
    await page.systemBack();
    expect(taken).toEqual(['caption', 'picture']);
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('leaves nothing to go back through when it was put away by its own button', async () => {
    const closed = put('pad');
    await page.settled();
    closed();
    await page.settled();
    expect(taken).toEqual([]);
    await page.systemBack();
    expect(over.route).toEqual({ at: 'jobs' });
  });

  it('hands its entry on to what opens as it closes', async () => {
    const first = put('first field');
    await page.settled();
    const entries = page.entries.length;
    put('second field');
    first();
    await page.settled();
    expect(page.entries.length).toBe(entries);
    await page.systemBack();
    expect(taken).toEqual(['second field']);
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('that opens while the last one is being left has an entry of its own', async () => {
    const first = put('first');
    await page.settled();
    first();
    // The step back is asked for, and not made yet.
    for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
    put('second');
    await page.settled();
    await page.systemBack();
    expect(taken).toEqual(['second']);
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('leaves no entry of its own when one goes on from it', async () => {
    put('menu');
    await page.settled();
    const entries = page.entries.length;
    over.go({ at: 'guide' });
    expect(page.entries.length).toBe(entries);
    expect(over.route).toEqual({ at: 'guide' });
    await page.systemBack();
    expect(taken).toEqual([]);
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('of a form that was saved is gone with the form', async () => {
    over.go({ at: 'job_new' });
    const pad = put('pad');
    await page.settled();
    // The pad's own button saves: it closes, and the answer leads on while the browser steps back.
    pad();
    for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
    over.go({ at: 'job', job: 'new' }, { replace: true });
    await page.settled();
    expect(over.route).toEqual({ at: 'job', job: 'new' });
    await page.systemBack();
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('does not keep a form alive that is replaced under it', async () => {
    over.go({ at: 'job_new' });
    put('pad');
    await page.settled();
    over.go({ at: 'job', job: 'new' }, { replace: true });
    await page.settled();
    expect(over.route).toEqual({ at: 'job', job: 'new' });
    await page.systemBack();
    expect(over.route).toEqual({ at: 'job', job: 'a' });
  });

  it('is not what the bar’s own back takes away: that leaves the place', async () => {
    put('sheet');
    await page.settled();
    over.back({ at: 'jobs' });
    await page.settled();
    expect(over.route).toEqual({ at: 'jobs' });
  });

  it('is gone after a reload, and so is its entry', async () => {
    put('pad');
    await page.settled();
    leave();
    over = new Router(page as unknown as Window);
    leave = over.follow();
    await page.settled();
    await page.systemBack();
    expect(over.route).toEqual({ at: 'jobs' });
  });
});
