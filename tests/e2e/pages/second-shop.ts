// A colleague with an empty shop takes in what was passed on.
import { expect } from 'vitest';
import type { Hands } from './hands';
import { CUSTOMER, JOB, type Courier } from './whole-job';

export class SecondShop {
  constructor(
    readonly hands: Hands,
    private readonly courier: Courier,
    /** The canonical digest of the shop's store. */
    private readonly digest: () => Promise<string>,
    private readonly look: (screen: string) => Promise<void> = async () => undefined,
  ) {}

  /** He has taken the demonstration shop out, so that nothing is left. */
  async empties(): Promise<void> {
    const { hands } = this;
    await hands.sees('Who is working?');
    await hands.press('Close');
    await hands.press('More');
    await hands.press('Settings');
    await hands.press('Take out: The demonstration shop');
    await hands.sees('Taken out: The demonstration shop');
    await this.look('settings without the demonstration shop');
    await hands.press('Back');
    await hands.sees('No job yet');
    await this.look('no jobs');
  }

  /** The plan first, and nothing changes; then he takes it in. */
  async takesIn(file: string): Promise<void> {
    const { hands } = this;
    const before = await this.digest();
    await this.#looksAt(file);
    await hands.sees('Made by Marta Oyelaran');
    await hands.sees(JOB.vehicle);
    await hands.sees('new here');
    await this.look('plan');
    expect(await this.digest()).toBe(before);
    await hands.press('The marks are the same');
    await hands.press('Take it in');
    await hands.sees(/Taken in: \d+ records/);
    await hands.press(new RegExp(JOB.vehicle.replaceAll('.', '\\.')));
    await hands.sees(CUSTOMER.name);
    await hands.sees('Sleeve with a smaller valve');
    await hands.press('Back');
  }

  /** The same file again says so and changes nothing. */
  async takesInAgain(file: string): Promise<void> {
    const before = await this.digest();
    await this.#looksAt(file);
    await this.hands.sees('All of it is here already.');
    expect(await this.digest()).toBe(before);
    await this.hands.press('Back');
  }

  /** With the demonstration shop, on which the first shop worked, both hold the same. */
  async bringsTheDemoBack(): Promise<void> {
    const { hands } = this;
    await hands.press('More');
    await hands.press('Settings');
    await hands.press('Bring the demonstration shop back');
    await hands.sees('The demonstration shop is back.');
  }

  async #looksAt(file: string): Promise<void> {
    const { hands } = this;
    await hands.press('More');
    await hands.press('Take in a file');
    await hands.sees('nothing changes before you say so');
    await this.courier.brings(file, () => hands.press('Choose the file'));
  }
}
