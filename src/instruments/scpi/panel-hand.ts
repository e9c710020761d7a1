import type { Done } from '#instruments/instrument.ts';

/**
 * The hand of a virtual set that is served as instruments: it turns what on a real set a person turns.
 * Each act gives whether it was done.
 */
export class PanelHand {
	readonly #tell: (message: string) => Promise<Done>;

	/** @param tell sends a message to the panel and gives what it had to object */
	constructor(tell: (message: string) => Promise<Done>) {
		this.#tell = tell;
	}

	async #did(message: string): Promise<boolean> {
		return (await this.#tell(message)).kind === 'done';
	}

	/** Clips the generator's lead. */
	lead(point: 'antenna' | 'converter grid'): Promise<boolean> {
		return this.#did(`HAND:LEAD ${point === 'antenna' ? 'ANT' : 'GRID'}`);
	}

	pointer(dialHz: number): Promise<boolean> {
		return this.#did(`HAND:DIAL ${Math.round(dialHz)}`);
	}

	/** @param share of the volume control's way, 0 to 1 */
	volume(share: number): Promise<boolean> {
		return this.#did(`HAND:VOL ${(100 * share).toFixed(2)}`);
	}

	turn(adjuster: string, turns: number): Promise<boolean> {
		return this.#did(`HAND:TURN "${adjuster}",${turns}`);
	}
}
