import { afterEach, describe, expect, it, vi } from 'vitest';
import { keepFocusInView } from './keep-in-view';

/** A window whose visible part the system's keyboard can shrink. */
function pageWith(field: HTMLElement) {
  const viewport = Object.assign(new EventTarget(), { offsetTop: 0, height: 800 });
  document.body.append(field);
  field.focus();
  const page = { visualViewport: viewport, document } as unknown as Window;
  const keyboard = (height: number) => {
    viewport.height = 800 - height;
    viewport.dispatchEvent(new Event('resize'));
  };
  return { page, keyboard };
}

function at<Field extends HTMLElement>(field: Field, top: number): Field {
  field.getBoundingClientRect = () => ({ top, bottom: top + 56 }) as DOMRect;
  return field;
}

afterEach(() => document.body.replaceChildren());

describe('the field that is typed into', () => {
  it('is brought into view when the keyboard comes up over it', () => {
    const field = at(document.createElement('textarea'), 600);
    const { page, keyboard } = pageWith(field);
    const brought = vi.spyOn(field, 'scrollIntoView').mockImplementation(() => undefined);
    const stop = keepFocusInView(page);
    keyboard(320);
    expect(brought).toHaveBeenCalledOnce();
    stop();
    keyboard(0);
    keyboard(320);
    expect(brought).toHaveBeenCalledOnce();
  });

  it('stays where it is while it can be seen', () => {
    const field = at(document.createElement('input'), 100);
    const { page, keyboard } = pageWith(field);
    const brought = vi.spyOn(field, 'scrollIntoView').mockImplementation(() => undefined);
    keepFocusInView(page);
    keyboard(320);
    expect(brought).not.toHaveBeenCalled();
  });

  it('is the only thing that is moved', () => {
    const button = at(document.createElement('button'), 700);
    const { page, keyboard } = pageWith(button);
    const brought = vi.spyOn(button, 'scrollIntoView').mockImplementation(() => undefined);
    keepFocusInView(page);
    keyboard(320);
    expect(brought).not.toHaveBeenCalled();
  });
});
