import type { CommandMap } from './commands';
import { CommandFailure, readError } from './errors';
import type { ShellFiles } from './shell';

/** The one way in which the interface reaches the core. */
export interface Backend {
  call<Name extends keyof CommandMap>(
    command: Name,
    args: CommandMap[Name]['args'],
  ): Promise<CommandMap[Name]['answer']>;
  /** Only in the app's own window. */
  readonly files?: ShellFiles;
}

/** Carries one request text to the core and brings the answer back: its text, or that text read. */
export type Carrier = (request: string) => Promise<unknown>;

/** A backend over any carrier of `{"command", "args"}` that answers `{"ok"}` or `{"error"}`. */
export function backendOver(carry: Carrier): Backend {
  return {
    async call(command, args) {
      return (await answerOver(() => carry(JSON.stringify({ command, args })))) as never;
    },
  };
}

/** What something answered; a failure of the core's kind if nothing came. */
export async function answerOver(ask: () => Promise<unknown>): Promise<unknown> {
  let answer: unknown;
  try {
    answer = await ask();
  } catch (cause) {
    throw new CommandFailure({
      code: 'unreachable',
      params: { detail: String(cause) },
      retry: true,
    });
  }
  return readAnswer(answer);
}

/** The content of `{"ok"}`, as text or read already; `{"error"}` is thrown. */
export function readAnswer(carried: unknown): unknown {
  let answer = carried;
  if (typeof carried === 'string') {
    try {
      answer = JSON.parse(carried);
    } catch {
      throw new CommandFailure({ code: 'garbled_answer', params: {}, retry: false });
    }
  }
  if (typeof answer === 'object' && answer !== null) {
    if ('ok' in answer) return answer.ok;
    if ('error' in answer) throw new CommandFailure(readError(answer.error));
  }
  throw new CommandFailure({ code: 'garbled_answer', params: {}, retry: false });
}
