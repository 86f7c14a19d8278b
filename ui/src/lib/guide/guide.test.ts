import { describe, expect, it } from 'vitest';
import { t } from '$lib/messages';
import { DRAWINGS } from '../../components/guide/drawings';
import { EN } from './en';
import { PAGE_IDS, PAGE_TITLES } from './page';
import { folded, GuideIndex } from './search';
import { CHECKS, CHECK_PAGES, HAZARD_PAGES, REPAIR_PAGES, STEP_PAGES } from './subjects';

const index = new GuideIndex(PAGE_IDS.map((id) => [id, t(PAGE_TITLES[id]), EN[id]]));
const found = (query: string) => index.find(query).map(({ id }) => id);
const everyText = PAGE_IDS.flatMap((id) => {
  const { lead, how, parts, why, cannot, cautions } = EN[id];
  const listed = [how, why, cannot, cautions, ...(parts ?? []).map(({ points }) => points)];
  return [lead, ...listed.flatMap((list) => list ?? [])].map((text) => [id, text] as const);
});

describe('the guide', () => {
  it('says of every check what it can’t tell, and who or what says so', () => {
    for (const check of CHECKS) {
      const page = EN[CHECK_PAGES[check]];
      expect(page.how?.length ?? 0, check).toBeGreaterThan(1);
      expect(page.why?.length ?? 0, check).toBeGreaterThan(0);
      expect(page.cannot?.length ?? 0, check).toBeGreaterThan(0);
    }
    for (const id of PAGE_IDS) expect(EN[id].sources.length, id).toBeGreaterThan(0);
  });

  it('has cautions wherever somebody can be hurt', () => {
    const dangerous = [
      ...Object.values(HAZARD_PAGES),
      ...(['gauge_at_taps', 'spring', 'relief', 'repair', 'solenoid_resistance'] as const),
    ];
    for (const id of dangerous) expect(EN[id].cautions?.length ?? 0, id).toBeGreaterThan(0);
  });

  it('links only to other pages, and every page is linked to', () => {
    const linked = new Set(PAGE_IDS.flatMap((id) => EN[id].see));
    for (const id of PAGE_IDS) {
      expect(EN[id].see, id).not.toContain(id);
      expect(new Set(EN[id].see).size, id).toBe(EN[id].see.length);
      expect(linked, id).toContain(id);
    }
    const asked = [...Object.values(STEP_PAGES), ...Object.values(REPAIR_PAGES)];
    for (const id of asked) expect(PAGE_IDS).toContain(id);
  });

  it('gives no figure that could be taken for a specification', () => {
    // A number with a unit that a reading, a limit or a torque could have. An example of ± and the
    // length of a thou are none.
    const figure = /\d[\d.,]*\s?(psi|kPa|bar|inHg|N\b|Nm|lbf|lb|mm|µm|in\b|°C|°F|ohm|Ω)/;
    const allowed = new Set(['units']);
    const odd = everyText.filter(([id, text]) => !allowed.has(id) && figure.test(text));
    expect(odd).toEqual([]);
  });

  it('numbers each drawing’s rings as its list below does, inside the sheet', () => {
    for (const [name, { strokes, legend, height }] of Object.entries(DRAWINGS)) {
      const rings = strokes.flatMap((stroke) => (stroke[0] === 'n' ? [stroke] : []));
      expect(rings.map(([, number]) => number), name).toEqual(legend.map((_, at) => at + 1));
      for (const [, number, x, y] of rings) {
        expect(x >= 11 && x <= 309, `${name} ${number}`).toBe(true);
        expect(y >= 11 && y <= height - 11, `${name} ${number}: ${y} of ${height}`).toBe(true);
      }
    }
    const shown = new Set(PAGE_IDS.flatMap((id) => EN[id].figure ?? []));
    expect([...shown].sort()).toEqual(Object.keys(DRAWINGS).sort());
  });
});

describe('finding in the guide', () => {
  it('shows all pages for nothing, in the order of the work', () => {
    expect(found('  ')).toEqual(PAGE_IDS);
  });

  it('finds by the beginnings of words, all of them, whatever case or accent', () => {
    expect(found('FREE move')[0]).toBe('free_movement');
    expect(found('vàrnish')[0]).toBe('after_cleaning');
    expect(found('spring zebra')).toEqual([]);
    expect(folded('Öl, Ångström, naïve')).toBe('ol, angstrom, naive');
  });

  it('puts a page whose title has the word before those that only mention it', () => {
    expect(found('blank')[0]).toBe('blank');
    expect(found('relief')[0]).toBe('relief');
    expect(found('spring')[0]).toBe('spring');
    expect(found('blank').length).toBeGreaterThan(1);
  });

  it('knows other words for the same thing', () => {
    expect(found('o-ring')[0]).toBe('end_plug');
    expect(found('micrometer')[0]).toBe('diameters');
    expect(found('stolen')[0]).toBe('lost_phone');
  });

  it('shows the sentence that has the words', () => {
    const [first] = index.find('carbon copy');
    expect(first).toBeUndefined();
    const [porous] = index.find('crack wall');
    expect(folded(porous?.excerpt ?? '')).toMatch(/crack|wall/);
  });
});
