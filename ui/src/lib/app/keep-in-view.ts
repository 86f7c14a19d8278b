/**
 * Keeps what is typed into in view while the system's own keyboard is up. Where the page shrinks for
 * the keyboard the browser does it; where the keyboard lies over the page, only the visual viewport
 * gets smaller, and the field has to be brought up. Call the answer to stop.
 */
export function keepFocusInView(page: Window = window): () => void {
  const viewport = page.visualViewport;
  if (!viewport) return () => undefined;
  const bring = () => {
    const field = page.document.activeElement;
    if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
    const { top, bottom } = field.getBoundingClientRect();
    const from = viewport.offsetTop;
    if (top >= from && bottom <= from + viewport.height) return;
    field.scrollIntoView({ block: 'center' });
  };
  viewport.addEventListener('resize', bring);
  return () => viewport.removeEventListener('resize', bring);
}

/** For what tells of a failure below what is on the screen: it comes into view as it appears. */
export function comeIntoView(notice: HTMLElement): void {
  notice.scrollIntoView({ block: 'nearest' });
}
