import type { Backend, ShellFiles } from '$lib/backend';
import { CommandFailure } from '$lib/backend';
import type {
  ApiError,
  Commands,
  ErrorCode,
  LongResult,
  TaskBegin,
  TaskRef,
  TaskView,
} from '$lib/generated/commands';

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
  readonly #tasks: { readonly kind: string; readonly outcome: Promise<unknown> }[] = [];

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
    if (answer) return structuredClone(await answer(args));
    if (name === 'task.begin') return this.#begin(args as TaskBegin) as Commands[N]['answer'];
    if (name === 'task.state') return (await this.#state(args as TaskRef)) as Commands[N]['answer'];
    throw refusal('unknown_command');
  }

  /** A task does what the command of its name does; that counts as a call of the command. */
  #begin({ work }: TaskBegin): TaskRef {
    const [kind, args] = typeof work === 'string' ? [work, {}] : (Object.entries(work)[0] ?? []);
    const name = `${kind}`.replace('_', '.') as Name;
    this.#tasks.push({ kind: `${kind}`, outcome: this.call(name, args as never) });
    // Somebody looks later whether it failed.
    this.#tasks.at(-1)?.outcome.catch(() => undefined);
    return { task: this.#tasks.length };
  }

  async #state({ task }: TaskRef): Promise<TaskView> {
    const begun = this.#tasks[task - 1];
    if (!begun) throw refusal('not_found');
    const view = { task, done: 0, total: 0 };
    try {
      const finished = { [begun.kind]: await begun.outcome } as unknown as LongResult;
      return { ...view, state: { finished } };
    } catch (cause) {
      if (!(cause instanceof CommandFailure)) throw cause;
      return { ...view, state: { failed: cause.error as ApiError } };
    }
  }
}
