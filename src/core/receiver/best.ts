import { createRandom } from '#core/numeric/random.ts';
import type { BenchSet } from './bench-set.ts';
import { factoryTurns } from './factory.ts';
import { gainAtIfDb } from './sensitivity.ts';

/** One adjuster after the other, each by steps that shrink, until a round gains less than a thousandth of a decibel. */
function climb(start: BenchSet): { readonly set: BenchSet; readonly gainDb: number } {
	let set = start;
	let gainDb = gainAtIfDb(set);
	// The wave trap is there to keep a signal out: it stays.
	const ids = Object.keys(set.design.adjusters).filter((id) => id !== set.design.trap.adjuster);
	const steps = new Map(ids.map((id) => [id, 0.25]));
	for (let round = 0; round < 60; round++) {
		const before = gainDb;
		for (const id of ids) {
			const travel = set.design.adjusters[id]?.travelTurns ?? 0;
			const step = steps.get(id) as number;
			let moved = false;
			for (const direction of [1, -1]) {
				for (;;) {
					const at = Math.min(Math.max((set.turns[id] as number) + direction * step, 0), travel);
					const tried = { ...set, turns: { ...set.turns, [id]: at } };
					const triedDb = gainAtIfDb(tried);
					if (!(triedDb > gainDb)) break;
					set = tried;
					gainDb = triedDb;
					moved = true;
				}
				if (moved) break;
			}
			if (!moved) steps.set(id, step / 3);
		}
		if (gainDb - before < 1e-3 && Math.max(...steps.values()) < 4e-3) break;
	}
	return { set, gainDb };
}

/**
 * The best that this very set can do with its faults kept: adjusters climbed from where they stand, from the factory's settings
 * and from `starts` seeded places around those, and the best of all taken.
 */
export function bestAlignment(set: BenchSet, starts = 3): BenchSet {
	const random = createRandom(7);
	const factory = factoryTurns(set.design);
	const trap = set.design.trap.adjuster;
	const places = [set.turns, { ...factory, [trap]: set.turns[trap] as number }];
	for (let k = 0; k < starts; k++) {
		places.push(
			Object.fromEntries(
				Object.entries(factory).map(([id, at]) => [
					id,
					id === trap ? (set.turns[id] as number) : at + 0.3 * random.gaussian(),
				]),
			),
		);
	}
	const climbed = places.map((turns) => climb({ ...set, turns }));
	return climbed.reduce((best, one) => (one.gainDb > best.gainDb ? one : best)).set;
}
