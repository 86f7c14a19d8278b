import { CommandFailure, type Backend, type CommandError, type ShellFiles } from '$lib/backend';
import type { Commands, FileHeld, Overview, Settings, UndoState, UndoStep } from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { PageId } from '$lib/guide/page';
import { Ahead } from './ahead';
import { showSettings, usualUnits } from './device';
import { failureOf } from './failure';
import { HereAndNow } from './here-and-now.svelte';
import { JobQuery } from './job-query.svelte';
import { LastValues } from './last-values.svelte';
import type { LongName, LongWork } from './long-work.svelte';
import { Router } from './router.svelte';
import { Toasts } from './toasts.svelte';
import { changeWords } from './words/kind';

/** What the page knows about the program itself. */
export type Standing =
  | { readonly is: 'starting' }
  | { readonly is: 'in_trouble'; readonly error: CommandError; readonly path: string }
  | { readonly is: 'open' };

type Name = keyof Commands;

/**
 * The app while it runs: the core, the shop's overview, where one is, what was just done. Views
 * call the core through it, so that undo stays up to date and a record without an author leads to
 * the question who is working.
 */
export class Session {
  standing = $state.raw<Standing>({ is: 'starting' });
  overview = $state.raw<Overview>();
  version = $state('');
  storePath = $state('');
  /** Rises when something was changed elsewhere than in the view shown: views then read anew. */
  revision = $state(0);
  /** Open while the app asks who is working. */
  asking = $state(false);
  /** A change that could not be undone, brought back or kept: shown wherever one is. */
  failure = $state.raw<CommandError>();
  /** A file that somebody opened with the app and the page didn't look at yet. */
  arrived = $state.raw<FileHeld | CommandFailure>();
  /** The file on the page that takes files in, to come back to from looking at it. */
  inHand: number | undefined;
  /** The file that is looked at, until one is elsewhere. */
  #looked: string | undefined;
  /** Pages of the guide open over the place where one is, the one shown last. None: it is shut. */
  guide = $state.raw<readonly PageId[]>([]);
  /** Whether the list of keys is open. */
  showKeys = $state(false);
  /** The job that the place shown belongs to, where its address doesn't say. */
  atJob = $state('');
  /** What this device remembers beside its settings. */
  readonly here: HereAndNow = new HereAndNow(this);
  /** What was typed last for each thing that is measured. */
  readonly lastValues: LastValues = new LastValues(this);
  readonly router: Router;
  readonly toasts = new Toasts();
  /** What the list of jobs is searched by. */
  readonly jobQuery = new JobQuery();
  readonly #backend: Backend;
  #answers: ((chosen: boolean) => void)[] = [];
  readonly #ahead: Ahead;

  constructor(backend: Backend, { router = new Router(), ahead }: { router?: Router; ahead?: Ahead } = {}) {
    this.#backend = backend;
    this.router = router;
    this.#ahead = ahead ?? new Ahead(backend, router.route.at === 'jobs');
  }

  /** The dialogs of the app's own window; none in a browser. */
  get files(): ShellFiles | undefined {
    return this.#backend.files;
  }

  /** Shows what each file would bring that is opened with the app. */
  watchArrivals(): void {
    this.files?.watch((file) => {
      this.arrived = file;
      if (this.router.route.at !== 'take_in') this.router.go({ at: 'take_in' });
    });
  }

  /** The file that arrived last, once. */
  takeArrived(): FileHeld | CommandFailure | undefined {
    const file = this.arrived;
    this.arrived = undefined;
    return file;
  }

  /** The author's name; none: nobody is chosen yet. */
  get author(): string | undefined {
    const id = this.overview?.author;
    return this.overview?.people.find((person) => person.id === id)?.name;
  }

  /** Shows how something is done, over the place where one is: nothing there is touched. */
  showHow(page: PageId): void {
    this.guide = [...this.guide, page];
  }

  /** One went elsewhere: what failed at the place before isn't about this one. */
  moved(): void {
    this.failure = undefined;
    this.toasts.moved();
    this.#endLooking();
  }

  /** What is looked at goes as soon as one looks at something else. */
  #endLooking(): void {
    const { route } = this.router;
    const before = this.#looked;
    this.#looked = 'looked' in route ? route.looked : undefined;
    if (this.#looked === undefined && route.at !== 'take_in') this.inHand = undefined;
    if (before === undefined || before === this.#looked) return;
    // A failure hurts nobody: the core holds one such file at a time.
    this.#backend.call('look.close', { file: Number(before) }).catch(() => undefined);
  }

  get undo(): UndoState {
    return this.overview?.undo ?? {};
  }

  /** Opens the store: whether it can be worked with, then the shop. */
  async start(): Promise<void> {
    this.standing = { is: 'starting' };
    try {
      const [state] = await Promise.all([
        this.read('app.state', {}),
        this.here.open(),
        this.lastValues.open(),
        this.#ahead.answered(),
      ]);
      this.version = state.version;
      this.storePath = state.store_path;
      if (state.trouble) throw new CommandFailure(state.trouble);
      this.#take(await this.read('shop.overview', {}));
      await this.#startUnits();
      this.standing = { is: 'open' };
    } catch (cause) {
      // What a file in trouble answered says nothing of one that was mended.
      this.#ahead.drop();
      this.standing = { is: 'in_trouble', error: failureOf(cause), path: this.storePath };
      return;
    }
    if (!this.overview?.author) this.asking = true;
  }

  /** As [`read`], of what may take long: `long` says how far it is, and cancels it. */
  readLong<N extends LongName>(
    name: N,
    args: Commands[N]['args'],
    long: LongWork,
  ): Promise<Commands[N]['answer']> {
    return long.call(this.#backend, name, args);
  }

  /** As [`write`], of what may take long. */
  writeLong<N extends LongName>(
    name: N,
    args: Commands[N]['args'],
    long: LongWork,
  ): Promise<Commands[N]['answer']> {
    return this.#written(() => long.call(this.#backend, name, args));
  }

  /** Asks the core something that changes nothing. */
  async read<N extends Name>(name: N, args: Commands[N]['args']): Promise<Commands[N]['answer']> {
    const answer = await (this.#ahead.take(name, args) ?? this.#backend.call(name, args));
    this.#noteUndo(answer);
    return answer;
  }

  /**
   * Has the core record something. Without an author it asks who is working first; put away
   * without an answer, the call fails with `no_author` and nothing is lost.
   */
  write<N extends Name>(name: N, args: Commands[N]['args']): Promise<Commands[N]['answer']> {
    return this.#written(() => this.#backend.call(name, args));
  }

  async #written<Answer>(call: () => Promise<Answer>): Promise<Answer> {
    this.#ahead.drop();
    let answer: Answer;
    try {
      answer = await call();
    } catch (cause) {
      const unsigned = cause instanceof CommandFailure && cause.error.code === 'no_author';
      if (!unsigned || !(await this.askWho())) throw cause;
      answer = await call();
    }
    if (!this.#noteUndo(answer)) await this.refresh();
    return answer;
  }

  /** Asks who is working. True when somebody was chosen. */
  askWho(): Promise<boolean> {
    this.asking = true;
    return new Promise((resolve) => this.#answers.push(resolve));
  }

  /** The question was answered, or put away. */
  answered(overview: Overview | undefined): void {
    if (overview) {
      this.#take(overview);
      void this.here.keep();
    }
    this.asking = false;
    for (const answer of this.#answers.splice(0)) answer(overview !== undefined);
  }

  async choosePerson(person: string): Promise<void> {
    this.answered(await this.#backend.call('person.choose', { person }));
  }

  async addPerson(name: string): Promise<void> {
    this.answered(await this.#backend.call('person.add', { name }));
  }

  /** Reads the shop anew. Called after changes; a failure leaves what was known. */
  async refresh(): Promise<void> {
    this.#ahead.drop();
    try {
      this.#take(await this.#backend.call('shop.overview', {}));
    } catch (cause) {
      this.failure = failureOf(cause);
    }
  }

  /** Takes the last change back, says which, and shows the place as it is now. */
  async undoLast(): Promise<void> {
    await this.#step('undo.last', (step) => ({
      text: t('undo.undone', { change: changeWords(step) }),
      action: { label: t('undo.redo'), run: () => void this.redoLast() },
    }));
  }

  /** Brings the last undone change back. */
  async redoLast(): Promise<void> {
    await this.#step('redo.last', (step) => ({
      text: t('undo.redone', { change: changeWords(step) }),
      action: { label: t('undo.undo'), run: () => void this.undoLast() },
    }));
  }

  /** Takes an import out again, and says so. */
  async takeOut(number: number, told: string): Promise<void> {
    this.failure = undefined;
    try {
      await this.#backend.call('import.remove', { import: number });
      this.toasts.say({ text: told });
      await this.refresh();
      this.revision += 1;
    } catch (cause) {
      this.failure = failureOf(cause);
    }
  }

  /** Shows numbers in other units from this moment on, and keeps the choice. */
  async changeSettings(change: Partial<Settings>): Promise<void> {
    if (!this.overview) return;
    const settings = { ...this.overview.settings, ...change };
    this.#take({ ...this.overview, settings });
    await this.#backend.call('settings.put', settings);
  }

  async #step(
    name: 'undo.last' | 'redo.last',
    told: (step: UndoStep) => Parameters<Toasts['say']>[0],
  ): Promise<void> {
    this.failure = undefined;
    try {
      const { step, undo } = await this.#backend.call(name, {});
      if (this.overview) this.overview = { ...this.overview, undo };
      this.toasts.say(told(step));
      if (name === 'undo.last') this.#leave(step);
      await this.refresh();
      this.#leaveUnit();
      this.revision += 1;
    } catch (cause) {
      this.failure = failureOf(cause);
    }
  }

  /** Nor is a unit that isn't there any more. */
  #leaveUnit(): void {
    const { route } = this.router;
    if (!('unit' in route) || route.unit === undefined) return;
    const there = this.overview?.units.some(({ id }) => id === route.unit);
    if (!there) this.router.go({ at: 'units' }, { replace: true });
  }

  /** A job that was undone while one looked at it is not a place to stay. */
  #leave(step: UndoStep): void {
    const { route } = this.router;
    const inside =
      (step.kind === 'job' && 'job' in route && route.job === step.subject) ||
      (step.kind === 'test' && 'test' in route && route.test === step.subject) ||
      (step.kind === 'repair' && 'repair' in route && route.repair === step.subject) ||
      ('subject' in route && route.subject === step.subject && step.kind === route.of);
    if (inside) this.router.back({ at: 'jobs' });
  }

  /** At the very first start numbers are shown as the device's country reads them. */
  async #startUnits(): Promise<void> {
    if (this.here.known || !this.overview || this.overview.author) return;
    const usual = usualUnits();
    const { settings } = this.overview;
    const differs = (Object.keys(usual) as (keyof typeof usual)[]).some((it) => usual[it] !== settings[it]);
    // Inches where metres were wanted is an inconvenience, not a reason not to open.
    if (differs) await this.changeSettings(usual).catch(() => undefined);
  }

  #take(overview: Overview): void {
    this.overview = overview;
    showSettings(overview.settings);
  }

  /** Most answers say what undo would do now. */
  #noteUndo(answer: unknown): boolean {
    if (typeof answer !== 'object' || answer === null || !('undo' in answer)) return false;
    if (this.overview) this.overview = { ...this.overview, undo: answer.undo as UndoState };
    return true;
  }
}
