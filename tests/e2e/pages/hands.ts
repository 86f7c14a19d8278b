/**
 * What a person can do with a screen: press what can be pressed, choose an answer, write, key in a
 * number, and read. One implementation for Chromium, one for the app's own window.
 */
export interface Hands {
  /** Presses the button, the link or the heading that opens more, on the sheet if one is open. */
  press(name: string | RegExp): Promise<void>;
  /** Chooses an answer of a question. */
  choose(question: string, answer: string): Promise<void>;
  /** Writes into a text field, in place of what stood there. */
  write(label: string, text: string): Promise<void>;
  /** Opens the pad of a number. */
  openPad(label: string): Promise<void>;
  /** Presses keys of the open pad. */
  keys(keys: string): Promise<void>;
  /** Moves a slider to a share of its way, 0 to 1. */
  slide(label: string, share: number): Promise<void>;
  /** What can be read on the whole screen, spaces made plain. */
  text(): Promise<string>;
  /** Waits until something can be read on the screen. */
  sees(what: string | RegExp): Promise<void>;
}

/** Text as a person reads it: no-break spaces are spaces, a true minus is a minus. */
export function plain(text: string): string {
  return text
    .replace(/[\u00a0\u202f\u2009]/g, ' ')
    .replace(/\u2212/g, '-')
    .replace(/[ \t]+/g, ' ');
}
