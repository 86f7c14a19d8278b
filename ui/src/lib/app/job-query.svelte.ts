import type { JobListArgs, JobState } from '$lib/generated/commands';
import { ALL_JOBS, PAGE } from './ahead';

/** What the list of jobs is searched by. It stays as long as the app runs: back finds it again. */
export class JobQuery {
  text = $state('');
  state = $state<JobState | ''>('');
  unit = $state('');
  bore = $state('');
  person = $state('');
  from = $state('');
  to = $state('');
  shown = $state(PAGE);

  /** How many filters narrow the list, words apart. */
  get filters(): number {
    return [this.state, this.unit, this.bore, this.person, this.from, this.to].filter(Boolean).length;
  }

  get narrows(): boolean {
    return this.text.trim() !== '' || this.filters > 0;
  }

  get args(): JobListArgs {
    return {
      ...ALL_JOBS,
      text: this.text,
      state: this.state || null,
      unit: this.unit || null,
      bore: this.bore || null,
      person: this.person || null,
      from: this.from || null,
      to: this.to || null,
      limit: this.shown,
    };
  }

  /** Shows everything again. */
  clear(): void {
    this.text = '';
    this.state = '';
    this.unit = '';
    this.bore = '';
    this.person = '';
    this.from = '';
    this.to = '';
    this.shown = PAGE;
  }
}
