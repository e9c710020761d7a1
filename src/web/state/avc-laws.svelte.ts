import { type AvcWork, afterAvc, type LawStanding, lawFor, noAvcWork } from '#bench/avc-laws.ts';
import { InputScale } from '#bench/level-scale.ts';
import type { RunState } from '#bench/run-state.ts';
import type { LevelReading } from '#record/reading.ts';
import { generators } from './generators.svelte.ts';
import { fetchAvcLaws } from './server.ts';

/** The AVC laws of the set on the bench: those of this run, and what its earlier runs know. */
export class AvcLaws {
	#elsewhere: AvcWork = $state.raw(noAvcWork);
	/** One scale for each law, so that what was turned back is not turned back again. */
	readonly #scales = new Map<string, InputScale>();

	constructor({ card, run }: RunState) {
		if (card?.id === undefined) return;
		void fetchAvcLaws(card.id).then((answer) => {
			if (answer.ok)
				this.#elsewhere = answer.value.entries.filter((entry) => entry.run !== run).reduce(afterAvc, noAvcWork);
		});
	}

	/** The laws for readings of a meter with the generator's lead at a point. */
	at(stands: RunState, point: string, reading: Pick<LevelReading, 'instrument' | 'reference'> | null): LawStanding {
		return lawFor(stands.avc, this.#elsewhere, point, reading, generators.all(stands).levels);
	}

	/** Turns readings back by the law that holds; `null` where none does. */
	scale({ held }: LawStanding): InputScale | null {
		if (held === null) return null;
		const key = `${held.id} ${held.steps.length} ${held.law.places.map(({ inputDb }) => inputDb)}`;
		const known = this.#scales.get(key) ?? new InputScale(held);
		this.#scales.set(key, known);
		return known;
	}
}
