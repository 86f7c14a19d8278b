// The whole main job as one story, told once for Chromium and for the app's own window: a job is
// opened, made safe, measured, judged, given a relief, repaired, measured again, reported, passed
// on, and taken in by somebody else.
import { expect } from 'vitest';
import type { Hands } from './hands';
import { UNIT, expectFigure, found } from './figures';
import { printed, textOf } from './printed';
import { CAUTIONS, type Bench, type Job, type Technician } from './technician';

export const JOB: Job = {
  unit: 'Larkmoor L6',
  vehicle: '2016 Wendover estate, 2.0',
  complaint: 'Flares 2-3 hot, bangs into reverse.',
  notes: 'Feed tap reads 82 psi hot, customer waits.',
};
export const CUSTOMER = { name: 'Edda Malling', telephone: '555 0142' };

/** As they are typed: inches of mercury. */
const BEFORE: Bench = {
  barometer: '29.80',
  deadHead: '28.1',
  orifices: { '0.5': '21.4', '1.1': '5.0' },
  blank: '27.7',
  readings: ['17.2', '16.9', '17.3'],
};
const AFTER: Bench = { ...BEFORE, readings: ['23.6', '23.7', '23.6'] };
const STAND = 'Bench 1, Hollow Lane';

/** Carries files as the window at hand does it: by a download, or by the system's dialogs. */
export interface Courier {
  /** Presses what saves a file, and says where it lies then. */
  saves(ending: 'html' | 'pdf' | 'vvb', press: () => Promise<void>): Promise<string>;
  /** Presses what asks for a file, and hands it this one. */
  brings(file: string, press: () => Promise<void>): Promise<void>;
}

/** The story's chapters, each ending where the next begins. */
export class WholeJob {
  constructor(
    readonly hands: Hands,
    readonly technician: Technician,
    private readonly courier: Courier,
    private readonly look: (screen: string) => Promise<void> = async () => undefined,
  ) {}

  /** She says who she is, opens the job and keeps the customer apart. */
  async opensTheJob(person: string): Promise<void> {
    const { hands } = this;
    await this.technician.comesIn(person);
    await this.technician.opensJob(JOB);
    await hands.press('Change: Customer');
    await hands.write('Name', CUSTOMER.name);
    await hands.write('Telephone', CUSTOMER.telephone);
    await this.look('customer');
    await hands.press('Save');
    await hands.sees(CUSTOMER.name);
  }

  /** The cautions stand before the bench. */
  async makesItSafe(): Promise<void> {
    const { hands } = this;
    await hands.press('Read the cautions');
    await this.technician.readsCautions();
    await hands.sees('All were read for this job.');
    await hands.press('Back to the job');
    expect(await hands.text()).not.toContain(`Caution 1 of ${CAUTIONS}`);
  }

  /** The vacuum test and what the leak does, put on record. */
  async judgesTheBore(): Promise<void> {
    const { hands } = this;
    await hands.press('Begin a vacuum test');
    await this.#tests(BEFORE);
    await hands.sees('Outside limit');
    await hands.sees('Shift at the highest line pressure, 250 psi');
    await hands.sees('Clearance that explains it');
    await this.#decides();
    await hands.press('Back');
  }

  /** A relief to be added: a slip at the seat is told at the field, then the window and the leak. */
  async checksTheRelief(): Promise<void> {
    const { hands, technician } = this;
    await hands.press('Check a relief that is to be added');
    await hands.sees('A relief contains, it doesn’t cure');
    await technician.keys('Ball diameter', '0.1875');
    await technician.keys('Seat diameter', '0.25');
    await hands.sees('the ball would fall through');
    await technician.keys('Seat diameter', '0.126');
    await technician.keys('Spring load, ball seated', '1.75');
    await technician.keys('Spring rate', '20');
    await technician.keys('Most lift', '0.03');
    await hands.write('Where these figures come from', 'Measured, drawing 7 of the shop');
    await technician.keys('What the parts stand', '200');
    await hands.write('Who says so', 'Service information, table 4 (invented)');
    await hands.sees('Above normal regulation and below what the parts stand.');
    // By hand: 1.75 lbf on π/4 (0.126 in)² is 140.35 psi.
    const [cracking = ''] = found(
      await hands.text(),
      /Opens at \(cracking pressure\)\s+([\d.]+)\s+psi/i,
    );
    expectFigure('cracking', cracking, 'psi', 140.35 * UNIT.psi);
    await hands.sees('by the last judged test');
    await this.look('relief');
    await hands.press('Save the check');
    await hands.sees('The relief check is on record.');
  }

  /** A sleeve, first without the dimensions that a prediction needs, then with them. */
  async repairsTheBore(): Promise<void> {
    const { hands, technician } = this;
    await hands.press('Record a repair');
    await hands.choose('What was done?', 'Sleeve with a smaller valve');
    await hands.sees('without it no pressure can be predicted');
    await hands.write('Parts, in words', 'Sleeve and valve turned in the shop');
    await technician.keys('Bore or sleeve diameter', '0.2953');
    await technician.keys('Valve diameter (reaction land)', '0.2941');
    await technician.keys('Bore may be off by', '0.1');
    await technician.keys('Valve may be off by', '0.1');
    await technician.keys('Spring load where it regulates', '4.42');
    await technician.keys('Spring rate of the repair', '8.6');
    await this.look('repair form');
    await hands.press('Put the repair on record');
    await hands.sees('The repair is on record.');
    await hands.sees('The bore was not tested since.');
  }

  /** The same bore again, and before, predicted and after side by side. */
  async provesIt(): Promise<void> {
    const { hands } = this;
    await hands.press('Test again');
    await this.#tests(AFTER);
    await hands.sees('Judged by the dimensions of the repair on record.');
    await this.#decides();
    await hands.press('Back');
    await hands.sees('Nothing is open on the bench. The road test decides.');
    const [before = '', predicted = '', after = ''] = found(
      await hands.text(),
      /At the highest line pressure, 250 psi\s+Before[\s\S]*?\n([\d.]+) psi[\s\S]*?Predicted[\s\S]*?\n([\d.]+) psi[\s\S]*?After[\s\S]*?\n([\d.]+) psi/,
    );
    expect(Number(after)).toBeLessThan(Number(before));
    expect(Number(predicted)).toBeGreaterThan(0);
    await this.look('before, predicted, after');
    await hands.press('Back');
  }

  /** The report, without the customer: what a reader needs stands on the paper. */
  async reportsIt(): Promise<void> {
    const { hands } = this;
    await hands.press('More');
    await hands.press('Report');
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    await this.look('report ready');
    const pdf = await this.courier.saves('pdf', () => hands.press('Save it on this device'));
    await hands.sees(/Saved: .+\.pdf/);
    await hands.choose('As what file', 'Web page (HTML)');
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    const page = await this.courier.saves('html', () => hands.press('Save it on this device'));
    await hands.sees(/Saved: .+\.html/);
    await hands.press('Back');
    for (const paper of [textOf(pdf), await printed(page)]) this.holdsTheJob(paper);
  }

  /** What a reader needs, and not the customer. */
  private holdsTheJob(paper: string): void {
    for (const needed of [
      JOB.vehicle,
      JOB.complaint,
      STAND,
      '17.2',
      '23.6',
      'Outside limit',
      'Sleeve with a smaller valve',
      'Service information, table 4 (invented)',
      'Marta Oyelaran',
    ]) {
      expect(paper).toContain(needed);
    }
    for (const personal of Object.values(CUSTOMER)) expect(paper).not.toContain(personal);
  }

  /** The job as one file for a colleague who may know the customer. Says where it lies. */
  async passesItOn(): Promise<string> {
    const { hands } = this;
    await hands.press('More');
    await hands.press('Pass this job on');
    await hands.choose('Customers’ names, telephones and plates', 'Put them in');
    await hands.press('Make the file');
    await hands.sees('The file is ready');
    await this.look('file ready');
    const file = await this.courier.saves('vvb', () => hands.press('Save it on this device'));
    await hands.sees(/Saved: .+\.vvb/);
    return file;
  }

  async #tests(bench: Bench): Promise<void> {
    await this.hands.choose('On which stand?', STAND);
    await this.hands.press('Begin the test');
    await this.technician.tests(bench);
  }

  async #decides(): Promise<void> {
    await this.hands.press('Put on record');
    await this.hands.sees('This goes on record under your name');
    await this.look('decision');
    await this.hands.press('Put on record');
    await this.hands.sees('The decision is on record.');
  }
}
