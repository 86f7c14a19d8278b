/** A letter's mean width against its height, where text can't be measured. */
const MEAN_LETTER = 0.56;

let pen: CanvasRenderingContext2D | null | undefined;

/** The width in px of one line of text in the app's typeface. */
export function textWidth(text: string, size: number, weight = 400): number {
  if (pen === undefined && typeof document !== 'undefined') {
    pen = document.createElement('canvas').getContext('2d');
  }
  if (!pen) return text.length * size * MEAN_LETTER;
  pen.font = `${weight} ${size}px "Atkinson Hyperlegible Next", system-ui, sans-serif`;
  return pen.measureText(text).width;
}
