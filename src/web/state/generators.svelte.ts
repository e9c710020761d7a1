import type { DatedCheck, KnownGenerator } from '#advice/generator-place.ts';
import { type GeneratorsKnown, generatorsKnown } from '#advice/generators-known.ts';
import type { DatedTrial } from '#advice/marked-table.ts';
import { allChecks } from '#bench/all-checks.ts';
import type { RunState } from '#bench/run-state.ts';
import { dialFor } from '#core/estimate/generator-dial.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { RunEntry } from '#record/run.ts';
import { fetchGeneratorChecks } from './server.ts';

const key = 'generator in use';
/** The old generator of every virtual bench; what is found of it holds for no real one. */
const virtualName = 'old generator of the virtual bench';

/** The person's generators: what all runs found them to be worth, and which one is in use in this browser. */
class Generators {
	/** The virtual set of the run in hand, with a generator of its own; `null` beside a real one. */
	beside: VirtualSet | null = $state.raw(null);
	#own: string = $state(localStorage.getItem(key) ?? '');
	#kept: readonly RunEntry[] = $state.raw([]);

	constructor() {
		void fetchGeneratorChecks().then((answer) => {
			if (answer.ok) this.#kept = answer.value.entries;
		});
	}

	/** Name of the one in use; empty for one that was never named. */
	get inUse(): string {
		return this.beside ? virtualName : this.#own;
	}

	use(name: string): void {
		this.#own = name.trim().slice(0, 60);
		localStorage.setItem(key, this.#own);
	}

	/** Checks of all runs; those of the run in hand as it knows them, struck ones left out. */
	checks(stands: RunState): readonly DatedCheck[] {
		return allChecks(this.#kept, stands).checks;
	}

	/** Trials of the generator in use: those of all runs, and of the run in hand as it knows them. */
	trials(stands: RunState): readonly DatedTrial[] {
		return allChecks(this.#kept, stands).trials.filter(({ trial }) => trial.generator === this.inUse);
	}

	/** What is known of all generators, by all runs. */
	all(stands: RunState): GeneratorsKnown {
		return generatorsKnown(allChecks(this.#kept, stands), Date.now());
	}

	/** Name of the generator whose marks tell a level now; `null` for one that gives what it is set to. */
	get markedBy(): string | null {
		return this.beside?.isExact ? null : this.inUse;
	}

	/** All generators that were checked. */
	known(stands: RunState): readonly KnownGenerator[] {
		return this.all(stands).dials;
	}

	/** Where the dial of the one in use has to stand for a frequency: there, for one that was never checked. */
	dialHz(stands: RunState, wantedHz: number): number {
		const current = this.current(stands);
		return (current && dialFor(current.dial, wantedHz)?.value) ?? wantedHz;
	}

	/** The one in use, when it was checked and needs it. */
	current(stands: RunState): KnownGenerator | null {
		if (this.beside?.isExact) return null;
		return this.known(stands).find(({ name }) => name === this.inUse) ?? null;
	}
}

export const generators = new Generators();
