import type { BenchSet } from '#core/receiver/bench-set.ts';
import { bestAlignment } from '#core/receiver/best.ts';
import { ifCurve } from '#core/receiver/if-curve.ts';
import { receivedHz, sensitivityV } from '#core/receiver/sensitivity.ts';

/** What a set can do, by its true values. */
export interface SetFigures {
	/** Generator volts for the standard output at the test points; `null` when 2 V do not reach it. */
	readonly sensitivityV: readonly { readonly dialHz: number; readonly v: number | null }[];
	readonly ifWidth6Hz: number | null;
	/** Level 5 kc above the IF less the level 5 kc below it. */
	readonly asymmetryDb5kHz: number;
	/** Frequency received less mark, on 13 marks evenly across the scale. */
	readonly dial: readonly { readonly dialHz: number; readonly errorHz: number }[];
}

/** A set as it stands, by its true values, against the best that it can be. */
export interface Judgement {
	readonly after: SetFigures;
	/** Mean over the test points of the sensitivity lost against the best this very set can have; `null` when one cannot be had. */
	readonly belowBestDb: number | null;
	readonly worstDialErrorHz: number;
}

/** What a set can do as it stands. */
export function setFigures(set: BenchSet): SetFigures {
	const { ifHz, band, testHz } = set.design;
	const curve = ifCurve(set);
	return {
		sensitivityV: testHz.map((dialHz) => ({ dialHz, v: sensitivityV(set, dialHz) })),
		ifWidth6Hz: Number.isFinite(curve.width6Hz) ? curve.width6Hz : null,
		asymmetryDb5kHz: curve.levelDb(ifHz + 5e3) - curve.levelDb(ifHz - 5e3),
		dial: Array.from({ length: 13 }, (_, k) => {
			const dialHz = band.lowHz + ((band.highHz - band.lowHz) * k) / 12;
			return { dialHz, errorHz: receivedHz(set, dialHz) - dialHz };
		}),
	};
}

/** Mean decibels by which one set needs more signal than another; `null` when either fails somewhere. */
function lossDb(one: SetFigures, best: SetFigures): number | null {
	let sum = 0;
	for (const [k, { v }] of one.sensitivityV.entries()) {
		const bestV = best.sensitivityV[k]?.v ?? null;
		if (v === null || bestV === null) return null;
		sum += 20 * Math.log10(v / bestV);
	}
	return sum / one.sensitivityV.length;
}

/** Judges a set by its true values, its faults kept. */
export function judged(set: BenchSet): Judgement {
	const after = setFigures(set);
	return {
		after,
		belowBestDb: lossDb(after, setFigures(bestAlignment(set))),
		worstDialErrorHz: Math.max(...after.dial.map(({ errorHz }) => Math.abs(errorHz))),
	};
}
