import { type Leakage, leakage } from '#core/estimate/generator-level.ts';
import { type WarmUp, warmUp } from '#core/estimate/warm-up.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { type DatedTrial, inTime, type MarkedTable, markedTable, readsOf } from './marked-table.ts';

/** A generator may drift by so much in so long and is called ready (chosen: a tenth of what a width of an IF curve is read to, over one sweep by hand). */
export const readyWhen = { driftHz: 100, windowS: 600 } as const;

/** What trials say of one generator, the latest of each kind. */
export interface GeneratorWorth {
	/** `null` before anything was read of its attenuator or its leak; without places before there are two. */
	readonly table: MarkedTable | null;
	readonly leak: (Leakage & { readonly atMs: number }) | null;
	/** Modulation depth, 0 to 1, and what it was marked with; `null` where that was not said. */
	readonly depth: (Estimate & { readonly marked: number | null; readonly atMs: number }) | null;
	/** The latest warm-up, with its readings in seconds since it was switched on; `null` before there is one. */
	readonly warmUp: (WarmUp & { readonly readings: readonly { atS: number; frequencyHz: number }[] }) | null;
}

/**
 * What a generator is worth, from its trials in any order.
 * @param limit most drift, and in how long, of a generator that is called ready
 */
export function generatorWorth(
	trials: readonly DatedTrial[],
	limit: { readonly driftHz: number; readonly windowS: number } = readyWhen,
): GeneratorWorth {
	const dated = inTime(trials);
	const leak = readsOf(dated, 'leakage').at(-1);
	const depth = readsOf(dated, 'modulation').at(-1);
	const warm = readsOf(dated, 'warm-up');
	const onSinceMs = warm.at(-1)?.read.onSinceMs;
	const heard = warm
		.filter(({ read }) => read.onSinceMs === onSinceMs)
		.map(({ atMs, read }) => ({ atS: (atMs - read.onSinceMs) / 1e3, frequencyHz: read.frequencyHz }));
	return {
		table: markedTable(trials),
		leak: leak ? { ...leakage(leak.read.knownV, leak.read.readDb, leak.read.offDb), atMs: leak.atMs } : null,
		depth: depth
			? {
					value: depth.read.depth,
					uncertainty: depth.read.uncertainty ?? null,
					marked: depth.read.marked ?? null,
					atMs: depth.atMs,
				}
			: null,
		warmUp: heard.length === 0 ? null : { ...warmUp(heard, limit.driftHz, limit.windowS), readings: heard },
	};
}
