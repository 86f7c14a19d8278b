import { href, readRoute, type Route } from './route';

/** What this app keeps in each entry of the browser's history. */
interface Entry {
  /** How many entries of ours lie before it: with none, back leads to a parent instead. */
  readonly depth: number;
  /** How far down the page was when it was left. */
  readonly scroll: number;
}

const START: Entry = { depth: 0, scroll: 0 };

function entryOf(state: unknown): Entry {
  if (typeof state !== 'object' || state === null) return START;
  const { depth, scroll } = state as Partial<Entry>;
  return {
    depth: typeof depth === 'number' ? depth : 0,
    scroll: typeof scroll === 'number' ? scroll : 0,
  };
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
  /** Takes away what lies over the place. */
  #away: (() => void) | undefined;

  constructor(page: Window = window) {
    this.#page = page;
    this.#read();
  }

  /** Follows the address. Call the answer to stop. */
  follow(): () => void {
    const moved = () => {
      const away = this.#away;
      this.#away = undefined;
      away?.();
      this.#read();
    };
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
    const { history } = this.#page;
    const here = entryOf(history.state);
    // From what lies over a place one comes back to the place itself.
    const instead = replace || this.#away !== undefined;
    this.#away = undefined;
    const entry: Entry = { depth: here.depth + (instead ? 0 : 1), scroll: 0 };
    if (instead) {
      history.replaceState(entry, '', href(route));
    } else {
      history.replaceState({ ...here, scroll: this.#page.scrollY }, '');
      history.pushState(entry, '', href(route));
    }
    this.#read();
  }

  /** Something opens over the place: the system's back then takes it away, and no more. */
  cover(away: () => void): void {
    const { history } = this.#page;
    const here = { ...entryOf(history.state), scroll: this.#page.scrollY };
    history.replaceState(here, '');
    history.pushState({ ...here, depth: here.depth + 1 }, '');
    this.#away = away;
  }

  /** It was put away otherwise than by going back. */
  uncover(): void {
    if (!this.#away) return;
    this.#away = undefined;
    this.#page.history.back();
  }

  /** Goes back to where one was; a page opened by a link goes up to its parent. */
  back(parent: Route): void {
    if (entryOf(this.#page.history.state).depth > 0) this.#page.history.back();
    else this.go(parent, { replace: true });
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
      history.replaceState({ depth: 1, scroll: 0 } satisfies Entry, '');
    }
    this.#address = hash;
    this.scroll = entryOf(history.state).scroll;
    this.route = readRoute(hash);
    this.visits += 1;
  }
}
