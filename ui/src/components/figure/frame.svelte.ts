/** What a drawing needs to know of its place: the width in px and the size of the page's text. */
export class Frame {
  width = $state(336);
  em = $state(16);

  /** Attach to the drawing's container: `<div {@attach frame.watch}>`. */
  readonly watch = (node: HTMLElement): (() => void) | undefined => {
    const measure = () => {
      if (node.clientWidth > 0) this.width = node.clientWidth;
      const size = parseFloat(getComputedStyle(document.documentElement).fontSize);
      if (size > 0) this.em = size;
    };
    measure();
    if (typeof ResizeObserver === 'undefined') return undefined;
    const observer = new ResizeObserver(measure);
    observer.observe(node);
    return () => observer.disconnect();
  };
}
