import type { PlainKey } from '$lib/messages';

/** Every way in which a command can fail. The set is closed: a new code breaks the build here. */
export type ErrorCode =
  | 'unknown_command'
  | 'invalid_arguments'
  | 'not_found'
  | 'nothing_to_undo'
  | 'store_locked'
  | 'store_read_only'
  | 'disk_full'
  | 'store_newer'
  | 'store_damaged'
  | 'cancelled'
  | 'internal'
  // The two below are made here, when no answer came back at all.
  | 'unreachable'
  | 'garbled_answer';

/** A failed command as it crosses the boundary. */
export interface CommandError {
  readonly code: ErrorCode;
  readonly params: Readonly<Record<string, string | number>>;
  /** The argument at fault, where one is. */
  readonly field?: string;
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
  unknown_command: {
    what: 'error.unknown_command.what',
    means: 'error.nothing_changed',
    todo: 'error.update_app',
  },
  invalid_arguments: {
    what: 'error.invalid_arguments.what',
    means: 'error.nothing_changed',
    todo: 'error.invalid_arguments.todo',
  },
  not_found: {
    what: 'error.not_found.what',
    means: 'error.not_found.means',
    todo: 'error.not_found.todo',
  },
  nothing_to_undo: {
    what: 'error.nothing_to_undo.what',
    means: 'error.nothing_changed',
    todo: 'error.nothing_to_undo.todo',
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
  store_newer: {
    what: 'error.store_newer.what',
    means: 'error.store_newer.means',
    todo: 'error.update_app',
  },
  store_damaged: {
    what: 'error.store_damaged.what',
    means: 'error.store_damaged.means',
    todo: 'error.store_damaged.todo',
  },
  cancelled: {
    what: 'error.cancelled.what',
    means: 'error.nothing_changed',
    todo: 'error.cancelled.todo',
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
