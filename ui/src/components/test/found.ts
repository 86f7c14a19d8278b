import type { Finding } from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { Quantity } from '$lib/quantity';
import type { ShownFinding } from '../shared/finding';
import { findingShown, findingsAt } from '../words/finding';

/** How the bounds of a finding are shown, by the unit that its field's name ends in. */
function quantityOf(field: string): Quantity | undefined {
  if (field.endsWith('vacuum_pa')) return 'vacuum';
  if (field.endsWith('pressure_pa')) return 'barometer';
  if (field.endsWith('altitude_m')) return 'altitude';
  if (field.endsWith('temperature_k')) return 'temperature';
  return undefined;
}

/**
 * The findings at one field. Of several that forbid the value the first says enough: who typed
 * 400 inHg needn't be told three ways that it can't be.
 */
export function fieldFindings(
  findings: readonly Finding[],
  field: string,
  quantity?: Quantity,
): ShownFinding[] {
  const shown = findingsAt(findings, field, quantity);
  const first = shown.find(({ severity }) => severity === 'blocking');
  return shown.filter((finding) => finding.severity !== 'blocking' || finding === first);
}

/** The place of a test that a finding stands at, in words. */
function placeOf(field: string): string {
  const reading = /^readings\[(\d+)\]/.exec(field)?.[1];
  if (reading !== undefined) return t('test.place.reading', { number: Number(reading) + 1 });
  if (field.startsWith('readings')) return t('test.place.readings');
  if (field.startsWith('stand_check')) return t('test.place.check');
  if (field.startsWith('blank')) return t('test.place.blank');
  if (field.startsWith('setup.ambient') || field.startsWith('setup.air')) return t('test.place.air');
  if (field.startsWith('setup')) return t('test.place.setup');
  if (field.startsWith('gauge')) return t('test.place.gauge');
  return t('test.place.profile');
}

const WEIGHT = { wrong: 0, doubt: 1, note: 2 } as const satisfies Record<Finding['severity'], number>;

/** All findings about a test in words, each with its place, what weighs most first. */
export function foundWords(findings: readonly Finding[]): ShownFinding[] {
  return [...findings]
    .sort((a, b) => WEIGHT[a.severity] - WEIGHT[b.severity])
    .map((finding) => {
      const { severity, text } = findingShown(finding, quantityOf(finding.field));
      return { severity, text: t('test.found.at', { place: placeOf(finding.field), text }) };
    });
}
