import { afterEach, describe, expect, it } from 'vitest';
import { keyAction } from './keys';

const on = { single: true, covered: false };

function press(key: string, target: HTMLElement = document.body, more: KeyboardEventInit = {}) {
  let seen: KeyboardEvent | undefined;
  const catchIt = (event: KeyboardEvent) => (seen = event);
  window.addEventListener('keydown', catchIt, { once: true });
  target.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }));
  if (!seen) throw new Error('nobody heard the key');
  return seen;
}

function put<Name extends keyof HTMLElementTagNameMap>(name: Name): HTMLElementTagNameMap[Name] {
  const node = document.createElement(name);
  document.body.append(node);
  return node;
}

afterEach(() => document.body.replaceChildren());

describe('a single key', () => {
  it('acts where nothing is typed', () => {
    expect(keyAction(press('?'), on)).toBe('help');
    expect(keyAction(press('n', put('button')), on)).toBe('new_job');
    expect(keyAction(press('x'), on)).toBeUndefined();
    expect(keyAction(press('toString'), on)).toBeUndefined();
  });

  it('belongs to a field that has the focus', () => {
    for (const field of ['input', 'textarea', 'select'] as const) {
      expect(keyAction(press('n', put(field)), on), field).toBeUndefined();
    }
  });

  it('does nothing under an open sheet, with another key held, repeated, or switched off', () => {
    expect(keyAction(press('n'), { ...on, covered: true })).toBeUndefined();
    expect(keyAction(press('n'), { ...on, single: false })).toBeUndefined();
    expect(keyAction(press('n', document.body, { ctrlKey: true }), on)).toBeUndefined();
    expect(keyAction(press('n', document.body, { metaKey: true }), on)).toBeUndefined();
    expect(keyAction(press('n', document.body, { repeat: true }), on)).toBeUndefined();
  });
});

describe('Ctrl and Enter', () => {
  it('is the main action, also while typing and with single keys off', () => {
    const held = { ctrlKey: true };
    expect(keyAction(press('Enter', put('textarea'), held), { single: false, covered: true })).toBe('main');
    expect(keyAction(press('Enter', put('input')), on)).toBeUndefined();
  });
});
