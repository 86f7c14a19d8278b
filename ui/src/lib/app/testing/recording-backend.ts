import type { Backend, ShellFiles } from '$lib/backend';
import { CommandFailure } from '$lib/backend';
import type { Commands, ErrorCode } from '$lib/generated/commands';

type Name = keyof Commands;
type Answers = {
  [N in Name]?: (
    args: Commands[N]['args'],
  ) => Commands[N]['answer'] | Promise<Commands[N]['answer']>;
};
type Call = { [N in Name]: { readonly name: N; readonly args: Commands[N]['args'] } }[Name];

/** A failure as the core would answer it. */
export function refusal(code: ErrorCode): CommandFailure {
  return new CommandFailure({ code, params: {}, retry: false });
}

/**
 * A core for tests of the interface: answers as told, types checked against the command table, and
 * remembers every call. What it isn't told, it refuses. Drafts are really kept.
 */
export class RecordingBackend implements Backend {
  readonly calls: Call[] = [];
  readonly drafts = new Map<string, unknown>();
  /** As in the app's own window, where a test puts dialogs here. */
  files?: ShellFiles;
  #answers: Answers;

  constructor(answers: Answers = {}) {
    this.#answers = {
      'draft.get': ({ key }) =>
        this.drafts.has(key) ? { value: this.drafts.get(key) as Record<string, unknown> } : {},
      'draft.put': ({ key, value }) => {
        this.drafts.set(key, value);
        return {};
      },
      'draft.clear': ({ key }) => {
        this.drafts.delete(key);
        return {};
      },
      ...answers,
    };
  }

  answer(answers: Answers): void {
    this.#answers = { ...this.#answers, ...answers };
  }

  /** The arguments of each call of one command. */
  argsOf<N extends Name>(name: N): Commands[N]['args'][] {
    return this.calls.filter((call) => call.name === name).map((call) => call.args);
  }

  async call<N extends Name>(name: N, args: Commands[N]['args']): Promise<Commands[N]['answer']> {
    this.calls.push(structuredClone({ name, args }) as Call);
    const answer = this.#answers[name];
    if (!answer) throw refusal('unknown_command');
    return structuredClone(await answer(args));
  }
}
