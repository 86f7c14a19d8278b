import type { CommandMap } from './commands';
import { CommandFailure, readError } from './errors';

/** The one way in which the interface reaches the core. */
export interface Backend {
  call<Name extends keyof CommandMap>(
    command: Name,
    args: CommandMap[Name]['args'],
  ): Promise<CommandMap[Name]['answer']>;
}

/** Carries one request text to the core and brings the answer back: its text, or that text read. */
export type Carrier = (request: string) => Promise<unknown>;

/** A backend over any carrier of `{"command", "args"}` that answers `{"ok"}` or `{"error"}`. */
export function backendOver(carry: Carrier): Backend {
  return {
    async call(command, args) {
      let answer: unknown;
      try {
        answer = await carry(JSON.stringify({ command, args }));
      } catch (cause) {
        throw new CommandFailure({
          code: 'unreachable',
          params: { detail: String(cause) },
          retry: true,
        });
      }
      return readAnswer(answer) as never;
    },
  };
}

function readAnswer(carried: unknown): unknown {
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
