// `headless serve` on a store of the test's own.
import path from 'node:path';
import { Program, ROOT, built, temporaryFolder } from './process';

/**
 * A running server. `kill` ends it as a power cut would; `restart` does that and starts it again
 * on the same store, at a new address; `close` ends it and removes the store.
 */
export class Server {
  readonly #folder = temporaryFolder();
  #program!: Program;
  /** The address to open, with the token of this run. */
  address = '';

  private constructor(
    private readonly empty: boolean,
    private readonly elsewhere?: string,
  ) {}

  /** On a fresh store: with the demo shop, or with nothing in it. */
  static async start({ empty = false } = {}): Promise<Server> {
    const server = new Server(empty);
    await server.#start();
    return server;
  }

  /** On a store that another program has open: two programs on one store are safe. */
  static async on(store: string): Promise<Server> {
    const server = new Server(false, store);
    await server.#start();
    return server;
  }

  /** The store's file. */
  get store(): string {
    return this.elsewhere ?? path.join(this.#folder.path, 'valvewright.db');
  }

  async #start(): Promise<void> {
    const ui = process.env['VALVEWRIGHT_UI'] ?? path.join(ROOT, 'ui', 'dist');
    this.#program = new Program(built('headless'), [
      ...['serve', '--store', this.store, '--ui', ui, '--port', '0'],
      ...(this.empty ? ['--empty'] : []),
    ]);
    this.address = (await this.#program.says(/(http:\/\/127\.0\.0\.1:\d+\/\?token=\w+)/))[1] ?? '';
  }

  /** Runs one command past the interface, to prepare a test or to look at what was stored. */
  async call(command: string, args: unknown = {}): Promise<unknown> {
    const address = new URL(this.address);
    const response = await fetch(new URL('/call', address), {
      method: 'POST',
      headers: {
        Authorization: `Bearer ${address.searchParams.get('token')}`,
        'Content-Type': 'application/json',
      },
      body: JSON.stringify({ command, args }),
    });
    const answer = JSON.parse(await response.text());
    if ('error' in answer) throw new Error(`${command}: ${JSON.stringify(answer.error)}`);
    return answer.ok;
  }

  kill(): Promise<void> {
    return this.#program.kill();
  }

  async restart(): Promise<void> {
    await this.kill();
    await this.#start();
  }

  async close(): Promise<void> {
    await this.kill();
    this.#folder.remove();
  }
}
