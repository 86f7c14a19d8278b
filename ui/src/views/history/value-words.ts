import type { HistoryEntry } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { bodyWords } from './body-words';

type Body = HistoryEntry['body'];

/** What a record says: its gist, else each of its fields by name, so that two can be told apart. */
export function valueWords(kind: string, body: Body): string {
  if (!body) return t('history.withheld');
  const gist = bodyWords({ kind, body } as HistoryEntry);
  return gist || fields(body).join('\n');
}

/** Fields that name other things say nothing to a person. */
const isPlain = (value: unknown): value is string | number | boolean =>
  (typeof value === 'string' && !/^[0-9a-f]{8}-[0-9a-f-]{27}$/.test(value)) ||
  typeof value === 'number' ||
  typeof value === 'boolean';

function fields(value: object, under = ''): string[] {
  return Object.entries(value).flatMap(([name, inner]: [string, unknown]) => {
    const path = under ? `${under} ${name}` : name;
    if (isPlain(inner)) return [`${path.replaceAll('_', ' ')}: ${inner}`];
    return typeof inner === 'object' && inner !== null ? fields(inner, path) : [];
  });
}
