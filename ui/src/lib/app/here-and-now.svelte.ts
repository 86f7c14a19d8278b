import { KEPT } from './ahead';

const KEY = KEPT.here;

interface Kept {
  altitude_m: number | null;
  single_keys: boolean;
}

interface Store {
  read(name: 'draft.get', args: { key: string }): Promise<{ value?: unknown }>;
  read(name: 'draft.put', args: { key: string; value: Record<string, unknown> }): Promise<unknown>;
}

/** What this device remembers beside its settings: how high it stands, and whether single keys act. */
export class HereAndNow {
  /** Altitude of the shop above sea level, m; none: nobody said. */
  altitude_m = $state.raw<number | null>(null);
  singleKeys = $state(true);
  /** True once something was kept: this isn't the first start. */
  known = false;
  readonly #store: Store;

  constructor(store: unknown) {
    this.#store = store as Store;
  }

  /** Reads what was kept. A convenience: without it the app opens all the same. */
  async open(): Promise<void> {
    const answer = await this.#store.read('draft.get', { key: KEY }).catch(() => undefined);
    const kept = answer?.value as Partial<Kept> | null | undefined;
    if (!kept) return;
    this.known = true;
    if (typeof kept.altitude_m === 'number' && Number.isFinite(kept.altitude_m)) {
      this.altitude_m = kept.altitude_m;
    }
    this.singleKeys = kept.single_keys !== false;
  }

  async keep(): Promise<void> {
    this.known = true;
    const value = {
      altitude_m: this.altitude_m,
      single_keys: this.singleKeys,
    } satisfies Kept;
    await this.#store.read('draft.put', { key: KEY, value }).catch(() => undefined);
  }
}
