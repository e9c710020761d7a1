/** How well a generator's frequency can be known: an old dial names no adjuster. */
export const generatorWays = [
	{ id: 'counter', words: 'by a counter, or it is digital', knownHz: 10 },
	{ id: 'receiver', words: 'by a receiver that reads to 0.1 kc', knownHz: 100 },
	{ id: 'dial', words: 'by its dial alone', knownHz: 2000 },
] as const;

/** What a person said of how the generator's frequency is known in a run, kept in this browser. */
export class KnownGenerator {
	/** Id of a way, `checked`, or nothing while it was not said. */
	way: string = $state('');
	readonly #key: string;

	constructor(run: string) {
		this.#key = `generator of ${run}`;
		this.way = localStorage.getItem(this.#key) ?? '';
	}

	tell(way: string): void {
		this.way = way;
		localStorage.setItem(this.#key, way);
	}

	/**
	 * Standard uncertainty of each frequency as set, hertz; what is not said is taken for an old dial.
	 * @param checkedHz what the generator's checks say of its dial; `null` for one that was never checked
	 */
	uncertaintyHz(checkedHz: number | null): number {
		if (this.way === 'checked' && checkedHz !== null) return checkedHz;
		return generatorWays.find(({ id }) => id === this.way)?.knownHz ?? 2000;
	}
}
