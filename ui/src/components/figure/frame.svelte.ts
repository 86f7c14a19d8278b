import { textWidth } from './text';

/** What a drawing needs to know of its place: the width in px and the size of the page's text. */
export class Frame {
  width = $state(336);
  em = $state(16);
  /** Rises once the typeface is there: text measured before was another's. */
  typeface = $state(0);

  /** Measures bold text, anew once the typeface has come. */
  get measure(): (text: string, size: number) => number {
    void this.typeface;
    return (text, size) => textWidth(text, size, 600);
  }

  /** Attach to the drawing's container: `<div {@attach frame.watch}>`. */
  readonly watch = (node: HTMLElement): (() => void) => {
    const measure = () => {
      if (node.clientWidth > 0) this.width = node.clientWidth;
      const size = parseFloat(getComputedStyle(document.documentElement).fontSize);
      if (size > 0) this.em = size;
    };
    measure();
    let watching = true;
    void document.fonts?.ready.then(() => {
      if (watching) this.typeface += 1;
    });
    // A frame later: drawing anew changes the container's height, which must not happen while the
    // observer is still telling.
    let frame = 0;
    const soon = () => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(measure);
    };
    const observer = typeof ResizeObserver === 'undefined' ? undefined : new ResizeObserver(soon);
    observer?.observe(node);
    return () => {
      watching = false;
      cancelAnimationFrame(frame);
      observer?.disconnect();
    };
  };
}
