import { type DatedCheck, type KnownGenerator, knownGenerators } from '#advice/generator-place.ts';
import type { DatedTrial } from '#advice/generator-worth.ts';
import type { RunState } from '#bench/run-state.ts';
import type { RunEntry } from '#record/run.ts';
import { fetchGeneratorChecks } from './server.ts';

const key = 'generator in use';

/** The person's generators: what all runs found them to be worth, and which one is in use in this browser. */
class Generators {
	/** Its name; empty for one that was never named. */
	inUse: string = $state(localStorage.getItem(key) ?? '');
	#kept: readonly RunEntry[] = $state.raw([]);

	constructor() {
		void fetchGeneratorChecks().then((answer) => {
			if (answer.ok) this.#kept = answer.value.entries;
		});
	}

	use(name: string): void {
		this.inUse = name.trim().slice(0, 60);
		localStorage.setItem(key, this.inUse);
	}

	/** Checks of all runs; those of the run in hand as it knows them, struck ones left out. */
	checks({ run, dial }: RunState): readonly DatedCheck[] {
		const elsewhere = this.#kept.flatMap(({ run: other, atMs, what }) =>
			what.kind === 'generator check' && other !== run ? [{ atMs, check: what }] : [],
		);
		return [...elsewhere, ...dial.checks];
	}

	/** Trials of the generator in use: those of all runs, and of the run in hand as it knows them. */
	trials({ run, dial }: RunState): readonly DatedTrial[] {
		const elsewhere = this.#kept.flatMap(({ run: other, atMs, what }) =>
			what.kind === 'generator trial' && other !== run ? [{ atMs, trial: what }] : [],
		);
		return [...elsewhere, ...dial.trials].filter(({ trial }) => trial.generator === this.inUse);
	}

	/** All generators that were checked. */
	known(stands: RunState): readonly KnownGenerator[] {
		return knownGenerators(this.checks(stands), Date.now());
	}

	/** The one in use, when it was checked. */
	current(stands: RunState): KnownGenerator | null {
		return this.known(stands).find(({ name }) => name === this.inUse) ?? null;
	}
}

export const generators = new Generators();
