import type { GuidePage, PageId } from './page';

/** A page as it is searched: its words by how much they say about what the page is for. */
interface Indexed {
  readonly id: PageId;
  readonly fields: readonly { readonly weight: number; readonly words: readonly string[] }[];
  readonly sentences: readonly string[];
}

/** A page found, and the words of it that show why. */
export interface Found {
  readonly id: PageId;
  readonly excerpt: string;
}

/** Text without case and accents, so that "varnish" and "VARNÍSH" are one. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[’']/g, '');
}

export const wordsOf = (text: string): string[] => folded(text).match(/[\p{L}\p{N}]+/gu) ?? [];

function sentencesOf(page: GuidePage): string[] {
  const parts = page.parts?.flatMap(({ title, points }) => [title, ...points]) ?? [];
  return [
    page.lead,
    ...(page.how ?? []),
    ...parts,
    ...(page.why ?? []),
    ...(page.cannot ?? []),
    ...(page.cautions ?? []),
  ];
}

/** The pages, ready to be searched. Made once, when the guide is first opened. */
export class GuideIndex {
  readonly #pages: readonly Indexed[];

  constructor(pages: readonly (readonly [PageId, string, GuidePage])[]) {
    this.#pages = pages.map(([id, title, page]) => {
      const sentences = sentencesOf(page);
      return {
        id,
        fields: [
          { weight: 8, words: wordsOf(title) },
          { weight: 4, words: wordsOf(page.words ?? '') },
          { weight: 2, words: wordsOf(page.lead) },
          { weight: 1, words: wordsOf(sentences.join(' ')) },
        ],
        sentences,
      };
    });
  }

  /**
   * The pages that have every word of the query, or words that begin with it; those whose title
   * has them first, else in the guide's own order. An empty query finds every page.
   */
  find(query: string): Found[] {
    const wanted = wordsOf(query);
    return this.#pages
      .map((page, order) => ({ page, order, score: score(page, wanted) }))
      .filter(({ score }) => score > 0 || wanted.length === 0)
      .sort((a, b) => b.score - a.score || a.order - b.order)
      .map(({ page }) => ({ id: page.id, excerpt: excerpt(page, wanted) }));
  }
}

/** Zero unless every word is found; a whole word counts more than the beginning of one. */
function score({ fields }: Indexed, wanted: readonly string[]): number {
  let sum = 0;
  for (const word of wanted) {
    const best = Math.max(
      ...fields.map(({ weight, words }) =>
        words.includes(word) ? weight * 1.5 : words.some((it) => it.startsWith(word)) ? weight : 0,
      ),
    );
    if (best === 0) return 0;
    sum += best;
  }
  return sum;
}

/** The sentence that has most of the words, the lead where none has more. */
function excerpt({ sentences }: Indexed, wanted: readonly string[]): string {
  const hits = (sentence: string) => {
    const words = wordsOf(sentence);
    return wanted.filter((word) => words.some((it) => it.startsWith(word))).length;
  };
  let best = sentences[0] ?? '';
  for (const sentence of sentences) if (hits(sentence) > hits(best)) best = sentence;
  return best;
}
