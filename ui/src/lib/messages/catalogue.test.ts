import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { isArgumentElement, isNumberElement, isPluralElement, isSelectElement, parse } from '@formatjs/icu-messageformat-parser';
import type { MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import { parse as parseSvelte } from 'svelte/compiler';
import { describe, expect, it } from 'vitest';
import { en } from './en';
import { fill } from './format';

const SOURCE = path.resolve(import.meta.dirname, '../..');

/** Every source file of the app itself: no tests, no gallery, nothing generated. */
function sources(folder = SOURCE): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const at = path.join(folder, entry.name);
    if (entry.isDirectory()) {
      return ['gallery', 'generated', 'testing'].includes(entry.name) ? [] : sources(at);
    }
    return /\.(svelte|ts)$/.test(entry.name) && !entry.name.endsWith('.test.ts') ? [at] : [];
  });
}

/** A catalogue of this language or another: it names its own keys, which is no use of them. */
const isCatalogue = (file: string) =>
  path.dirname(file) === import.meta.dirname && /^[a-z]{2}(-[a-z]+)?\.ts$/.test(path.basename(file));
const files = sources().filter((file) => !isCatalogue(file));
const texts = new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
const keys = Object.keys(en);

describe('the catalogue', () => {
  it('is a plausible size, so that the checks below have something to check', () => {
    expect(files.length).toBeGreaterThan(30);
    expect(keys.length).toBeGreaterThan(80);
  });
  it('has no key that nothing uses', () => {
    const all = [...texts.values()].join('\n');
    expect(keys.filter((key) => !all.includes(`'${key}'`))).toEqual([]);
  });
  it('has every key that is asked for', () => {
    const asked = [...texts].flatMap(([file, text]) =>
      [...text.matchAll(/\bt(?:Loose)?\(\s*'([^']+)'/g)].map(
        (match) => `${path.relative(SOURCE, file)}: ${match[1]}`,
      ),
    );
    expect(asked.length).toBeGreaterThan(20);
    expect(asked.filter((where) => !keys.includes(where.split(': ')[1] ?? ''))).toEqual([]);
  });
  it.each(Object.entries(en))('%s can be filled', (_, text) => {
    const names = argumentsOf(parse(text, { ignoreTag: true }));
    const values = Object.fromEntries([...names].map((name) => [name, 3]));
    const filled = fill(text, 'en', values);
    expect(filled).not.toMatch(/[{}]/);
    expect(filled.trim()).toBe(filled);
    expect(filled).not.toBe('');
  });
  it('has plural branches that are phrases, so that the compiler can tell them from arguments', () => {
    const words = Object.entries(en).filter(([, text]) =>
      /(?:zero|one|two|few|many|other|=\d+) \{[^ #{}]*\}/.test(text),
    );
    expect(words.map(([key]) => key)).toEqual([]);
  });
});

function argumentsOf(elements: readonly MessageFormatElement[]): Set<string> {
  const names = new Set<string>();
  for (const element of elements) {
    if (isArgumentElement(element) || isNumberElement(element)) names.add(element.value);
    if (isPluralElement(element) || isSelectElement(element)) {
      names.add(element.value);
      for (const option of Object.values(element.options)) {
        for (const name of argumentsOf(option.value)) names.add(name);
      }
    }
  }
  return names;
}

describe('no wording sits in a component', () => {
  const SPOKEN = ['aria-label', 'aria-description', 'aria-valuetext', 'alt', 'title', 'placeholder', 'label'];
  /** Text that is no language: marks, spaces, digits, the pad's sign key. */
  const isWording = (text: string) => /\p{L}{2,}/u.test(text.replace(/&\w+;/g, ''));

  const literals = (text: string): string[] => {
    const found: string[] = [];
    const visit = (node: unknown): void => {
      if (Array.isArray(node)) return node.forEach(visit);
      if (typeof node !== 'object' || node === null) return;
      const { type, data, name, value } = node as Record<string, unknown>;
      if (type === 'Comment') return;
      if (type === 'Text' && typeof data === 'string' && isWording(data)) found.push(data.trim());
      if (type === 'Attribute') {
        if (typeof name === 'string' && SPOKEN.includes(name)) visit(value);
        else visit((Array.isArray(value) ? value : [value]).filter((part) => (part as { type?: string } | null)?.type !== 'Text'));
        return;
      }
      for (const [key, child] of Object.entries(node)) if (key !== 'metadata') visit(child);
    };
    visit(parseSvelte(text, { modern: true }).fragment);
    return found;
  };

  it('finds wording where there is some', () => {
    expect(literals('<p>Hello there</p>')).toEqual(['Hello there']);
    expect(literals('<button aria-label="Close it">×</button>')).toEqual(['Close it']);
    expect(literals('<p class="note">{t("a.b")} ± 3</p>')).toEqual([]);
  });
  it.each(files.filter((file) => file.endsWith('.svelte')).map((file) => [path.relative(SOURCE, file), file]))(
    '%s',
    (_, file) => {
      expect(literals(texts.get(file) ?? '')).toEqual([]);
    },
  );
});
