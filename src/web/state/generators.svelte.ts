import { type DatedCheck, type KnownGenerator, knownGenerators } from '#advice/generator-place.ts';
import type { DatedTrial } from '#advice/generator-worth.ts';
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
