// What a technician does with the app, in the order of the work, whatever the window.
import type { Hands } from './hands';

/** One vacuum test as it is keyed in: the numbers as typed, in the units on the screen. */
export interface Bench {
  barometer: string;
  deadHead: string;
  orifices: Readonly<Record<string, string>>;
  blank: string;
  readings: readonly string[];
}

export interface Job {
  unit: string;
  vehicle: string;
  complaint: string;
  notes: string;
}

/** Everything a bench test warns of, in the order in which it is shown. */
export const CAUTIONS = 6;

export const READ = `All ${CAUTIONS} read and understood`;
export const NEXT = 'Next';
export const SAVE = 'Save and go on';

export class Technician {
  constructor(
    readonly hands: Hands,
    /** Called on each screen on the way. */
    private readonly look: (screen: string) => Promise<void> = async () => undefined,
  ) {}

  /** Says who is working. */
  async comesIn(name: string): Promise<void> {
    await this.hands.sees('Who is working?');
    await this.look('who is working');
    await this.hands.press(name);
    await this.hands.sees(`${name} is working`);
  }

  /** Opens a job. */
  async opensJob(job: Job): Promise<void> {
    const { hands } = this;
    await this.look('jobs');
    await hands.press('New job');
    await hands.choose('Which unit is on the bench?', job.unit);
    await hands.write('Year, make and model', job.vehicle);
    await hands.write('What is wrong, and when?', job.complaint);
    await hands.write('Notes, if any', job.notes);
    await this.look('new job');
    await hands.press('Open the job');
    await hands.sees('The job is open.');
    await this.look('job');
  }

  /** Reads the cautions that stand before bench work, to the last, and says so. */
  async readsCautions(): Promise<void> {
    const { hands } = this;
    for (let number = 1; number <= CAUTIONS; number += 1) {
      await hands.sees(`Caution ${number} of ${CAUTIONS}`);
    }
    await this.look('cautions');
    await hands.press(READ);
  }

  /** Keys a number into a field. */
  async keys(label: string, number: string): Promise<void> {
    await this.hands.openPad(label);
    await this.hands.press('Clear');
    await this.hands.keys(number);
    await this.hands.press('Done');
  }

  /** Answers how thick the air is. */
  async answersAir(barometer: string): Promise<void> {
    const { hands } = this;
    await hands.sees('How thick is the air here today?');
    await hands.choose('Known by', 'Barometer');
    await hands.openPad('Station pressure at the bench');
    await hands.keys(barometer);
    await this.look('barometer pad');
    await hands.press('Done');
    await hands.sees('In standard air this pressure belongs to an altitude of');
    await this.look('air');
    await hands.press(NEXT);
  }

  /** Looks at the bench and says that it is set up as the test point asks. */
  async confirmsSetup(): Promise<void> {
    await this.hands.sees('Is it set up as this test point asks?');
    await this.look('set-up, as asked');
    await this.hands.press('Yes, as shown');
  }

  /** Answers how the bore is set up, one question after the other. */
  async answersSetup(valve: string, orifice: string, surface: string): Promise<void> {
    const { hands } = this;
    await hands.press('One by one');
    await hands.choose('Where does the valve stand?', valve);
    await this.look('set-up: valve');
    await hands.press(NEXT);
    await hands.choose('What about the balance orifice?', orifice);
    await this.look('set-up: orifice');
    await hands.press(NEXT);
    await hands.choose('Dry or oiled?', surface);
    await this.look('set-up: surface');
    await hands.press(SAVE);
  }

  /** Reads the stand by itself: the closed hose, then each orifice. */
  async checksStand(deadHead: string, orifices: Bench['orifices']): Promise<void> {
    const { hands } = this;
    await hands.sees('What does the stand read by itself?');
    await this.keys('Hose closed (dead head)', deadHead);
    for (const [label, reading] of Object.entries(orifices)) {
      await this.keys(`Orifice “${label}”`, reading);
    }
    await this.look('stand check');
    await hands.press(SAVE);
  }

  async takesBlank(reading: string): Promise<void> {
    await this.hands.sees('What leaks without the bore?');
    await this.keys('Plug and plate alone', reading);
    await this.look('blank');
    await this.hands.press(SAVE);
  }

  /** Takes a reading; from the second on, after turning the valve and seating the plug anew. */
  async reads(number: number, reading: string): Promise<void> {
    const { hands } = this;
    if (number === 1) {
      await hands.sees('Wait until the needle stands still.');
      await hands.openPad('Vacuum at the gauge');
    } else {
      // The answer opens the pad.
      await hands.choose(`Before reading ${number}`, 'Valve turned, plug seated anew');
    }
    await hands.keys(reading);
    await this.look(`reading ${number} on the pad`);
    await hands.press(`Save reading ${number}`);
  }

  /** The whole vacuum test from its first question to the judgement. */
  async tests(bench: Bench): Promise<void> {
    await this.answersAir(bench.barometer);
    await this.confirmsSetup();
    await this.checksStand(bench.deadHead, bench.orifices);
    await this.takesBlank(bench.blank);
    for (const [index, reading] of bench.readings.entries()) await this.reads(index + 1, reading);
    await this.hands.sees('As recorded.');
  }
}
