import type { HistoryEntry, RepairOption } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { show } from '$lib/quantity/show';
import { HAZARD_WORDS, type Hazard } from '../../components/shared/hazards';
import { REPAIR_OPTIONS } from '../../components/repair/words';
import { JUDGEMENT_WORDS, type Judgement } from '../../components/shared/judgement';
import { markOf } from '../../components/words/verdict';

const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');
const joined = (...parts: unknown[]): string => parts.map(text).filter(Boolean).join(' · ');

/** The gist of a record's body; empty where its kind says enough. */
export function bodyWords({ kind, body, erased }: HistoryEntry): string {
  if (!body) return t(erased ? 'history.erased' : 'history.withheld');
  switch (kind) {
    case 'job':
      return joined(body['number'], body['opened_on']);
    case 'job.vehicle': {
      const distance = body['odometer_m'];
      return joined(
        body['description'],
        typeof distance === 'number' ? show(distance, 'distance') : '',
      );
    }
    case 'job.complaint':
    case 'job.notes':
      return text(body['text']);
    case 'job.customer':
      return joined(body['name'], body['phone'], body['plate']);
    case 'job.authorisation':
      return joined(body['who'], body['note']);
    case 'job.fitted':
      return joined(body['name'], body['maker_text'], body['lot']);
    case 'job.warranty':
      return text(body['text']);
    case 'job.sign_off':
      return joined(body['signed_by'], body['statement']);
    case 'job.comeback':
      return text(body['note']);
    case 'job.estimate': {
      const lines = Array.isArray(body['lines']) ? (body['lines'] as { what?: unknown }[]) : [];
      return joined(...lines.map(({ what }) => what), body['note']);
    }
    case 'caution': {
      const hazard = text(body['hazard']);
      return Object.hasOwn(HAZARD_WORDS, hazard) ? t(HAZARD_WORDS[hazard as Hazard].title) : hazard;
    }
    case 'test.reading':
    case 'test.blank':
      return vacuumWords(body['vacuum_pa'], body['as_typed']);
    case 'test.stand_check':
      return vacuumWords(body['dead_head_vacuum_pa'], body['as_typed']);
    case 'test.decision': {
      const mark: Judgement = markOf(body['verdict'] as Parameters<typeof markOf>[0]);
      return joined(t(JUDGEMENT_WORDS[mark]), body['note']);
    }
    case 'repair': {
      const work = body['work'] as { option?: unknown; parts?: unknown } | undefined;
      const option = text(work?.option);
      return joined(
        Object.hasOwn(REPAIR_OPTIONS, option) ? t(REPAIR_OPTIONS[option as RepairOption].label) : option,
        work?.parts,
      );
    }
    default:
      return '';
  }
}

/** What was typed, as it was typed; beside it the value as this device shows it. */
function vacuumWords(value: unknown, typed: unknown): string {
  if (typeof value !== 'number') return '';
  const shown = show(value, 'vacuum');
  return text(typed) === '' ? shown : t('history.typed', { typed: text(typed), shown });
}
