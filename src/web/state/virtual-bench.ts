import * as z from 'zod/mini';
import { designs } from '#core/receiver/designs/designs.ts';
import { VirtualSet, type VirtualState } from '#instruments/virtual/virtual-set.ts';

const keyOf = (run: string): string => `virtual-set ${run}`;

const kept = z.object({
	turns: z.record(z.string(), z.number()),
	levelV: z.number(),
	volume: z.number(),
	clips: z.array(
		z.union([
			z.object({ adjuster: z.string(), ohm: z.number().check(z.positive()) }),
			z.object({ adjuster: z.string(), farad: z.number().check(z.positive()) }),
		]),
	),
});

/** A number from a run's name, so that each run has its own tampering and a reload has the same. */
function seedOf(run: string): number {
	let seed = 7;
	for (const letter of run) seed = (seed * 31 + letter.charCodeAt(0)) % 1_000_003;
	return seed;
}

/** Where hands left a run's virtual set in this browser; `null` when nothing usable is kept. */
function keptState(run: string): VirtualState | null {
	try {
		const read = kept.safeParse(JSON.parse(localStorage.getItem(keyOf(run)) ?? 'null'));
		return read.success ? read.data : null;
	} catch {
		return null;
	}
}

/** The virtual set that a run is worked on, as hands left it; `null` when the card names none. */
export function virtualSetFor(run: string, design: string | undefined): VirtualSet | null {
	const found = designs[design ?? ''];
	return found ? new VirtualSet(found, seedOf(run), keptState(run)) : null;
}

/** Keeps where hands left a run's virtual set, over a reload of the page. */
export function keepVirtualSet(run: string, set: VirtualSet): void {
	localStorage.setItem(keyOf(run), JSON.stringify(set.state));
}
