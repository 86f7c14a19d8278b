import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Router } from './router.svelte';

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
  it('is what back takes away, once, and the place stays', () => {
    router.go({ at: 'job', job: 'a' });
    let taken = 0;
    router.cover(() => (taken += 1));
    window.dispatchEvent(new PopStateEvent('popstate'));
    window.dispatchEvent(new PopStateEvent('popstate'));
    expect(taken).toBe(1);
    expect(router.route).toEqual({ at: 'job', job: 'a' });
  });

  it('leaves no entry of its own when one goes on from it', () => {
    router.go({ at: 'job', job: 'a' });
    let taken = 0;
    router.cover(() => (taken += 1));
    const entries = window.history.length;
    router.go({ at: 'guide' });
    expect(window.history.length).toBe(entries);
    expect(router.route).toEqual({ at: 'guide' });
    window.dispatchEvent(new PopStateEvent('popstate'));
    expect(taken).toBe(0);
  });
});
