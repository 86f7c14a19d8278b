import type { ErrorCode as CoreErrorCode } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

/**
 * Every way in which a command can fail: the core's closed set, the two ways in which no answer comes
 * back at all, and a file that the system wouldn't share. A new code breaks the build here until it
 * has words.
 */
export type ErrorCode = CoreErrorCode | 'unreachable' | 'garbled_answer' | 'not_shared';

/** A failed command as it crosses the boundary. */
export interface CommandError {
  readonly code: ErrorCode;
  readonly params: Readonly<Record<string, string | number>>;
  /** The argument at fault, where one is. */
  readonly field?: string | null | undefined;
  /** Whether the same call may succeed later. */
  readonly retry: boolean;
}

/** What happened, what it means for the person's work, what to do. */
export interface ErrorWords {
  readonly what: PlainKey;
  readonly means: PlainKey;
  readonly todo: PlainKey;
}

export const ERROR_WORDS = {
  bad_request: {
    what: 'error.bad_request.what',
    means: 'error.nothing_changed',
    todo: 'error.bad_request.todo',
  },
  signer_unanswered: {
    what: 'error.signer_unanswered.what',
    means: 'error.bundle.means',
    todo: 'error.signer_unanswered.todo',
  },
  signer_in_doubt: {
    what: 'error.signer_in_doubt.what',
    means: 'error.bundle.means',
    todo: 'error.signer_in_doubt.todo',
  },
  device_name_taken: {
    what: 'error.device_name_taken.what',
    means: 'error.nothing_changed',
    todo: 'error.device_name_taken.todo',
  },
  settle_changed: {
    what: 'error.settle_changed.what',
    means: 'error.nothing_changed',
    todo: 'error.settle_changed.todo',
  },
  cannot_take_back: {
    what: 'error.cannot_take_back.what',
    means: 'error.nothing_changed',
    todo: 'error.cannot_take_back.todo',
  },
  unknown_command: {
    what: 'error.unknown_command.what',
    means: 'error.nothing_changed',
    todo: 'error.update_app',
  },
  not_found: {
    what: 'error.not_found.what',
    means: 'error.not_found.means',
    todo: 'error.not_found.todo',
  },
  no_store: {
    what: 'error.no_store.what',
    means: 'error.no_store.means',
    todo: 'error.no_store.todo',
  },
  store_locked: {
    what: 'error.store_locked.what',
    means: 'error.draft_kept',
    todo: 'error.store_locked.todo',
  },
  store_read_only: {
    what: 'error.store_read_only.what',
    means: 'error.store_read_only.means',
    todo: 'error.store_read_only.todo',
  },
  disk_full: {
    what: 'error.disk_full.what',
    means: 'error.disk_full.means',
    todo: 'error.disk_full.todo',
  },
  newer_schema: {
    what: 'error.newer_schema.what',
    means: 'error.newer_schema.means',
    todo: 'error.update_app',
  },
  not_a_store: {
    what: 'error.not_a_store.what',
    means: 'error.not_a_store.means',
    todo: 'error.not_a_store.todo',
  },
  store_damaged: {
    what: 'error.store_damaged.what',
    means: 'error.store_damaged.means',
    todo: 'error.store_damaged.todo',
  },
  io: {
    what: 'error.io.what',
    means: 'error.draft_kept',
    todo: 'error.io.todo',
  },
  no_author: {
    what: 'error.no_author.what',
    means: 'error.draft_kept',
    todo: 'error.no_author.todo',
  },
  no_decision: {
    what: 'error.no_decision.what',
    means: 'error.nothing_changed',
    todo: 'error.no_decision.todo',
  },
  nothing_to_undo: {
    what: 'error.nothing_to_undo.what',
    means: 'error.nothing_changed',
    todo: 'error.nothing_to_undo.todo',
  },
  out_of_range: {
    what: 'error.out_of_range.what',
    means: 'error.draft_kept',
    todo: 'error.out_of_range.todo',
  },
  no_solution: {
    what: 'error.no_solution.what',
    means: 'error.no_solution.means',
    todo: 'error.no_solution.todo',
  },
  not_a_bundle: {
    what: 'error.not_a_bundle.what',
    means: 'error.bundle.means',
    todo: 'error.not_a_bundle.todo',
  },
  bundle_truncated: {
    what: 'error.bundle_truncated.what',
    means: 'error.bundle.means',
    todo: 'error.bundle_truncated.todo',
  },
  bundle_damaged: {
    what: 'error.bundle_damaged.what',
    means: 'error.bundle.means',
    todo: 'error.bundle_damaged.todo',
  },
  bundle_newer: {
    what: 'error.bundle_newer.what',
    means: 'error.bundle.means',
    todo: 'error.update_app',
  },
  bundle_signature: {
    what: 'error.bundle_signature.what',
    means: 'error.bundle.means',
    todo: 'error.bundle_signature.todo',
  },
  bundle_unsigned: {
    what: 'error.bundle_unsigned.what',
    means: 'error.bundle.means',
    todo: 'error.bundle_unsigned.todo',
  },
  look_incomplete: {
    what: 'error.look_incomplete.what',
    means: 'error.look_incomplete.means',
    todo: 'error.look_incomplete.todo',
  },
  look_closed: {
    what: 'error.look_closed.what',
    means: 'error.look_closed.means',
    todo: 'error.look_closed.todo',
  },
  bundle_sealed: {
    what: 'error.bundle_sealed.what',
    means: 'error.bundle.means',
    todo: 'error.bundle_sealed.todo',
  },
  wrong_passphrase: {
    what: 'error.wrong_passphrase.what',
    means: 'error.bundle.means',
    todo: 'error.wrong_passphrase.todo',
  },
  short_passphrase: {
    what: 'error.short_passphrase.what',
    means: 'error.short_passphrase.means',
    todo: 'error.short_passphrase.todo',
  },
  seal_too_costly: {
    what: 'error.seal_too_costly.what',
    means: 'error.bundle.means',
    todo: 'error.seal_too_costly.todo',
  },
  seal_broken: {
    what: 'error.seal_broken.what',
    means: 'error.bundle.means',
    todo: 'error.seal_broken.todo',
  },
  file_too_large: {
    what: 'error.file_too_large.what',
    means: 'error.nothing_changed',
    todo: 'error.file_too_large.todo',
  },
  file_unreadable: {
    what: 'error.file_unreadable.what',
    means: 'error.nothing_changed',
    todo: 'error.file_unreadable.todo',
  },
  file_unwritable: {
    what: 'error.file_unwritable.what',
    means: 'error.file_unwritable.means',
    todo: 'error.file_unwritable.todo',
  },
  not_a_picture: {
    what: 'error.not_a_picture.what',
    means: 'error.nothing_changed',
    todo: 'error.not_a_picture.todo',
  },
  picture_heic: {
    what: 'error.picture_heic.what',
    means: 'error.nothing_changed',
    todo: 'error.picture_heic.todo',
  },
  picture_too_large: {
    what: 'error.picture_too_large.what',
    means: 'error.nothing_changed',
    todo: 'error.picture_too_large.todo',
  },
  picture_damaged: {
    what: 'error.picture_damaged.what',
    means: 'error.nothing_changed',
    todo: 'error.picture_damaged.todo',
  },
  picture_missing: {
    what: 'error.picture_missing.what',
    means: 'error.picture_missing.means',
    todo: 'error.picture_missing.todo',
  },
  table_too_long: {
    what: 'error.table_too_long.what',
    means: 'error.nothing_changed',
    todo: 'error.table_too_long.todo',
  },
  table_too_wide: {
    what: 'error.table_too_wide.what',
    means: 'error.nothing_changed',
    todo: 'error.table_too_wide.todo',
  },
  table_quote_open: {
    what: 'error.table_quote_open.what',
    means: 'error.nothing_changed',
    todo: 'error.table_quote_open.todo',
  },
  table_not_text: {
    what: 'error.table_not_text.what',
    means: 'error.nothing_changed',
    todo: 'error.table_not_text.todo',
  },
  table_empty: {
    what: 'error.table_empty.what',
    means: 'error.nothing_changed',
    todo: 'error.table_empty.todo',
  },
  table_not_ready: {
    what: 'error.table_not_ready.what',
    means: 'error.nothing_changed',
    todo: 'error.table_not_ready.todo',
  },
  built_upon: {
    what: 'error.built_upon.what',
    means: 'error.built_upon.means',
    todo: 'error.built_upon.todo',
  },
  in_use: {
    what: 'error.in_use.what',
    means: 'error.in_use.means',
    todo: 'error.in_use.todo',
  },
  backup_unsound: {
    what: 'error.backup_unsound.what',
    means: 'error.backup_unsound.means',
    todo: 'error.backup_unsound.todo',
  },
  nothing_readable: {
    what: 'error.nothing_readable.what',
    means: 'error.nothing_readable.means',
    todo: 'error.nothing_readable.todo',
  },
  too_many_tasks: {
    what: 'error.too_many_tasks.what',
    means: 'error.nothing_changed',
    todo: 'error.too_many_tasks.todo',
  },
  report_not_set: {
    what: 'error.report_not_set.what',
    means: 'error.nothing_changed',
    todo: 'error.report_not_set.todo',
  },
  internal: {
    what: 'error.internal.what',
    means: 'error.draft_kept',
    todo: 'error.internal.todo',
  },
  unreachable: {
    what: 'error.unreachable.what',
    means: 'error.draft_kept',
    todo: 'error.unreachable.todo',
  },
  garbled_answer: {
    what: 'error.garbled_answer.what',
    means: 'error.draft_kept',
    todo: 'error.internal.todo',
  },
  not_shared: {
    what: 'error.not_shared.what',
    means: 'error.not_shared.means',
    todo: 'error.not_shared.todo',
  },
} as const satisfies Record<ErrorCode, ErrorWords>;

export function isErrorCode(code: unknown): code is ErrorCode {
  return typeof code === 'string' && Object.hasOwn(ERROR_WORDS, code);
}

/** Thrown by every backend, whatever carried the call. */
export class CommandFailure extends Error {
  constructor(readonly error: CommandError) {
    super(error.code);
    this.name = 'CommandFailure';
  }
}

/** A code that this interface does not know is shown as an internal error that names it. */
export function readError(raw: unknown): CommandError {
  if (typeof raw !== 'object' || raw === null) {
    return { code: 'garbled_answer', params: {}, retry: false };
  }
  const { code, params, field, retry } = raw as Record<string, unknown>;
  const known = isErrorCode(code);
  const given = typeof params === 'object' && params !== null ? params : {};
  const plain = Object.fromEntries(
    Object.entries(given).filter(
      (entry): entry is [string, string | number] =>
        typeof entry[1] === 'string' || typeof entry[1] === 'number',
    ),
  );
  return {
    code: known ? code : 'internal',
    params: known ? plain : { ...plain, code: String(code) },
    ...(typeof field === 'string' ? { field } : {}),
    retry: retry === true,
  };
}
