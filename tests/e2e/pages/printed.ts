// A page on paper: printed by Chromium, read back as text.
import { execFileSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { chromium } from '../harness/chromium';

/** Prints a file of HTML to `<file>.pdf` and answers with what stands on it, its spaces made one. */
export async function printed(html: string): Promise<string> {
  const pdf = `${html}.pdf`;
  const context = await (await chromium()).newContext();
  try {
    const page = await context.newPage();
    await page.goto(pathToFileURL(html).href);
    await page.evaluate(() => document.fonts.ready);
    await page.pdf({ path: pdf, format: 'A4', printBackground: true });
  } finally {
    await context.close();
  }
  return execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
}

/** The text of a PDF file in the order in which it was written, its spaces made one. */
export function textOf(pdf: string): string {
  return execFileSync('pdftotext', ['-raw', pdf, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ');
}
