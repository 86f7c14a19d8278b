import { href, readRoute, type Route } from './route';

/** What this app keeps in each entry of the browser's history. */
interface Entry {
  /** How many entries of ours lie before it: with none, back leads to a parent instead. */
  readonly depth: number;
  /** How far down the page was when it was left. */
  readonly scroll: number;
  /** How many things lie over the place: each has an entry, so that back takes it away. */
  readonly over: number;
}

const START: Entry = { depth: 0, scroll: 0, over: 0 };
/** A step back that no browser has answered by then is taken as done, ms. */
const UNANSWERED = 2000;

function entryOf(state: unknown): Entry {
  if (typeof state !== 'object' || state === null) return START;
  const { depth, scroll, over } = state as Partial<Entry>;
  return {
    depth: typeof depth === 'number' ? depth : 0,
    scroll: typeof scroll === 'number' ? scroll : 0,
    over: typeof over === 'number' ? over : 0,
  };
}

/** Something that lies over the place. */
interface Cover {
  readonly away: () => void;
}

/**
 * Where the app is. The address's fragment is the truth: the system's back, a link and a reload
 * need nothing else. Leaving a place never asks and never discards, since forms keep drafts.
 */
export class Router {
  route = $state.raw<Route>({ at: 'jobs' });
  /** Rises at each change of place, also between two places of one kind. */
  visits = $state(0);
  /** How far down to go when the place was reached by going back. */
  scroll = 0;
  readonly #page: Window;
  #address = '';
  /** What lies over the place, the uppermost last. */
  #covers: Cover[] = [];
  /** How many entries of the history stand for them. */
  #entries: number;
  /** The step back that the browser was asked for and hasn't made yet. */
  #leaving: ReturnType<typeof setTimeout> | undefined;
  /** What waits for that step: it would go by the wrong entry. */
  #waiting: (() => void)[] = [];

  constructor(page: Window = window) {
    this.#page = page;
    // After a reload the entries are there, and what lay over the place is not.
    this.#entries = entryOf(page.history.state).over;
    this.#read();
    this.#agreeSoon();
  }

  /** Follows the address. Call the answer to stop. */
  follow(): () => void {
    const moved = () => this.#moved();
    const clicked = (event: MouseEvent) => this.#followLink(event);
    this.#page.addEventListener('popstate', moved);
    this.#page.addEventListener('hashchange', moved);
    this.#page.document.addEventListener('click', clicked);
    return () => {
      this.#page.document.removeEventListener('click', clicked);
      this.#page.removeEventListener('popstate', moved);
      this.#page.removeEventListener('hashchange', moved);
    };
  }

  /** Goes to a place. `replace`: back then leads to where one was before this one. */
  go(route: Route, { replace = false }: { replace?: boolean } = {}): void {
    // The entry of what lies over the place may become the next place's, and one comes back from
    // there to the place itself. Of several, or where the place is replaced too, the rest goes first.
    this.#at(replace ? 0 : 1, () => {
      const { history } = this.#page;
      const here = entryOf(history.state);
      const instead = replace || this.#entries > 0;
      this.#entries = 0;
      const entry: Entry = { depth: here.depth + (instead ? 0 : 1), scroll: 0, over: 0 };
      if (instead) {
        history.replaceState(entry, '', href(route));
      } else {
        history.replaceState({ ...here, scroll: this.#page.scrollY }, '');
        history.pushState(entry, '', href(route));
      }
      this.#read();
    });
  }

  /**
   * Something opens over the place: the system's back then takes it away, and no more. Call the
   * answer when it was put away otherwise. One that opens as another closes takes over its entry.
   */
  cover(away: () => void): () => void {
    const cover: Cover = { away };
    this.#covers.push(cover);
    this.#agreeSoon();
    return () => {
      const left = this.#covers.filter((it) => it !== cover);
      if (left.length === this.#covers.length) return;
      this.#covers = left;
      this.#agreeSoon();
    };
  }

  /** Goes back to where one was; a page opened by a link goes up to its parent. */
  back(parent: Route): void {
    this.#at(0, () => {
      if (entryOf(this.#page.history.state).depth > 0) this.#page.history.back();
      else this.go(parent, { replace: true });
    });
  }

  /** Does something once no more than `entries` lie over the place; all that lies there is left. */
  #at(entries: number, act: () => void): void {
    if (this.#leaving !== undefined) {
      this.#waiting.push(() => this.#at(entries, act));
      return;
    }
    this.#covers = [];
    if (this.#entries <= entries) {
      act();
      return;
    }
    this.#waiting.push(act);
    this.#leave(entries);
  }

  /** Steps back until `entries` are left over the place. The browser makes the step later. */
  #leave(entries: number): void {
    const unanswered = () => this.#moved();
    this.#leaving = setTimeout(unanswered, UNANSWERED);
    this.#page.history.go(entries - this.#entries);
  }

  #agreeSoon(): void {
    queueMicrotask(() => this.#agree());
  }

  /** As many entries as things over the place, once all of one turn have opened and closed. */
  #agree(): void {
    if (this.#leaving !== undefined) return;
    const { history } = this.#page;
    while (this.#entries < this.#covers.length) {
      const here = { ...entryOf(history.state), scroll: this.#page.scrollY };
      history.replaceState(here, '');
      this.#entries += 1;
      history.pushState({ ...here, depth: here.depth + 1, over: this.#entries }, '');
    }
    if (this.#entries > this.#covers.length) this.#leave(this.#covers.length);
  }

  /** The browser went to another entry: by our own step, or because somebody asked it to. */
  #moved(): void {
    this.#entries = entryOf(this.#page.history.state).over;
    if (this.#leaving === undefined) {
      while (this.#covers.length > this.#entries) this.#covers.pop()?.away();
    } else {
      clearTimeout(this.#leaving);
      this.#leaving = undefined;
    }
    this.#read();
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const act of waiting) act();
    this.#agreeSoon();
  }

  /**
   * Links work without this; with it, where the page stood is remembered for the way back. A click
   * that asks for a new tab is left to the browser.
   */
  #followLink(event: MouseEvent): void {
    if (event.defaultPrevented || event.button !== 0) return;
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    const address = link?.getAttribute('href');
    if (!address?.startsWith('#/')) return;
    event.preventDefault();
    this.go(readRoute(address));
  }

  #read(): void {
    const { hash } = this.#page.location;
    if (this.visits > 0 && hash === this.#address) return;
    const { history } = this.#page;
    // A link that was followed, or an address typed in: an entry without our state.
    if (history.state === null && this.visits > 0) {
      history.replaceState({ depth: 1, scroll: 0, over: 0 } satisfies Entry, '');
    }
    this.#address = hash;
    this.scroll = entryOf(history.state).scroll;
    this.route = readRoute(hash);
    this.visits += 1;
  }
}
