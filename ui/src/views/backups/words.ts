import type { BackupEntry, StoreLoss } from '$lib/generated/commands';
import { formatMoment, t, type PlainKey } from '$lib/messages';
import { kindWords } from '$lib/app/words/kind';
import { settings } from '$lib/settings/settings.svelte';

const REASONS = {
  daily: 'backups.reason.daily',
  by_hand: 'backups.reason.by_hand',
  before_migration: 'backups.reason.before_migration',
  before_import: 'backups.reason.before_import',
  replaced: 'backups.reason.replaced',
} as const satisfies Record<BackupEntry['reason'], PlainKey>;

const LOSSES = {
  altered: 'loss.altered',
  unsigned: 'loss.unsigned',
  content_altered: 'loss.content_altered',
  content_missing: 'loss.content_missing',
  missing: 'loss.missing',
} as const satisfies Record<StoreLoss['reason'], PlainKey>;

export const madeAt = (backup: BackupEntry): string => formatMoment(new Date(backup.made_at));

export const why = (backup: Pick<BackupEntry, 'reason'>): string => t(REASONS[backup.reason]);

export function sizeWords(bytes: number): string {
  const number = (value: number, digits: number) =>
    new Intl.NumberFormat(settings.locale, { maximumFractionDigits: digits }).format(value);
  return bytes < 1e6
    ? t('backups.size_kb', { size: number(bytes / 1e3, 0) })
    : t('backups.size_mb', { size: number(bytes / 1e6, 1) });
}

/** What a backup holds, and how large it is. */
export function holdsWords({ holds, bytes }: BackupEntry): string {
  const size = sizeWords(bytes);
  if (!holds) return t('backups.unreadable', { size });
  return t('backups.holds', { jobs: holds.jobs, records: holds.records, size });
}

/** When the last change in it was made. */
export function lastChange({ holds }: BackupEntry): string | undefined {
  if (!holds?.last_change) return undefined;
  return t('backups.last_change', { moment: formatMoment(new Date(holds.last_change)) });
}

/** One line of what a repair could not save. */
export function lossWords({ kind, job, reason, count }: StoreLoss): string {
  const named = kind ? kindWords(kind) : t('repaired.anything');
  const what = job ? t('repaired.of_job', { what: named, job }) : named;
  return `${t('repaired.count', { what, count })} (${t(LOSSES[reason])})`;
}
