import { CommandFailure, type CommandError } from '$lib/backend';

/** What went wrong, as the error notice takes it; a fault of the interface itself is internal. */
export function failureOf(cause: unknown): CommandError {
  if (cause instanceof CommandFailure) return cause.error;
  console.error(cause);
  return { code: 'internal', params: { detail: String(cause) }, retry: false };
}
