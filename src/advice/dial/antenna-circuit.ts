/** The antenna circuit against the dial: where it is tuned, what that loses, how well it keeps the image out, and where its trimmer is best peaked. */
import { antennaLossDb, trackingCurve } from '#core/circuit/tracking-curve.ts';
import type { DialModel } from '#core/estimate/dial-model.ts';

/** What is known of an antenna circuit. */
export interface AntennaCircuit {
	readonly q: number;
	/** How far its coil is off, such as 0.02. */
	readonly coilShare: number;
}

/**
 * Where the circuit is tuned with the pointer of a sound set on a mark.
 * 1 / f^2 goes with L (C + trimmer): a coil that is off is trimmed right at one mark and nowhere else.
 * @param peakedAtHz mark at which the trimmer was peaked
 */
export function antennaHz(
	{ ground }: DialModel,
	coilShare: number,
	peakedAtHz: number = ground.pointsHz[2],
): (dialHz: number) => number {
	const { pointsHz, ifHz, side, hasCutPlates } = ground;
	const { errorHz } = trackingCurve(pointsHz, ifHz, side);
	const nominalHz = (dialHz: number): number => {
		let nominal = dialHz;
		for (let round = 0; round < 8 && !hasCutPlates; round++) nominal = dialHz - errorHz(nominal);
		return nominal;
	};
	const trimmed = 1 / ((1 + coilShare) * peakedAtHz ** 2) - 1 / nominalHz(peakedAtHz) ** 2;
	return (dialHz) => 1 / Math.sqrt((1 + coilShare) * (1 / nominalHz(dialHz) ** 2 + trimmed));
}

/** One way to set the antenna trimmer. */
export interface TrimChoice {
	/** Mark at which it is peaked. */
	readonly peakedAtHz: number;
	/** Lost over the band because the circuit is not tuned to what comes in. */
	readonly curve: readonly { readonly dialHz: number; readonly lossDb: number }[];
	readonly worstLossDb: number;
	/** Mean of what is lost at the wanted stations; `null` without any. */
	readonly stationsLossDb: number | null;
}

/** Ways to set it, side by side. */
export interface TrimChoices {
	/** Peaked at the high mark, as sheets say. */
	readonly usual: TrimChoice;
	/** Peaked where the wanted stations lose least together; where the worst of the band is least without any. */
	readonly compromise: TrimChoice;
	/** The same as usual with the coil put right. */
	readonly cured: TrimChoice;
}

const places = 61;

function overBand({ ground: { band } }: DialModel): readonly number[] {
	return Array.from({ length: places }, (_, k) => band.lowHz + ((band.highHz - band.lowHz) * k) / (places - 1));
}

function choice(
	model: DialModel,
	{ q, coilShare }: AntennaCircuit,
	peakedAtHz: number,
	stationsHz: readonly number[],
): TrimChoice {
	const tunedHz = antennaHz(model, coilShare, peakedAtHz);
	const lossDb = (dialHz: number): number => antennaLossDb(q, tunedHz(dialHz), dialHz);
	const curve = overBand(model).map((dialHz) => ({ dialHz, lossDb: lossDb(dialHz) }));
	return {
		peakedAtHz,
		curve,
		worstLossDb: Math.max(...curve.map((point) => point.lossDb)),
		stationsLossDb:
			stationsHz.length === 0
				? null
				: stationsHz.reduce((sum, stationHz) => sum + lossDb(stationHz), 0) / stationsHz.length,
	};
}

/**
 * Where the antenna trimmer is best peaked, and what each way costs.
 * @param stationsHz wanted stations of this band; one named twice counts twice
 */
export function trimChoices(model: DialModel, circuit: AntennaCircuit, stationsHz: readonly number[]): TrimChoices {
	const [, , highHz] = model.ground.pointsHz;
	const cost = (peakedAtHz: number): number => {
		const { stationsLossDb, worstLossDb } = choice(model, circuit, peakedAtHz, stationsHz);
		return stationsLossDb ?? worstLossDb;
	};
	return {
		usual: choice(model, circuit, highHz, stationsHz),
		compromise: choice(model, circuit, leastAt(overBand(model), cost), stationsHz),
		cured: choice(model, { ...circuit, coilShare: 0 }, highHz, stationsHz),
	};
}

/** The place of least cost: a look at all of them, then ever finer between the neighbours of the best. */
function leastAt(atHz: readonly number[], cost: (peakedAtHz: number) => number): number {
	const costs = atHz.map(cost);
	const best = costs.indexOf(Math.min(...costs));
	let [low, high] = [atHz[Math.max(best - 1, 0)] as number, atHz[Math.min(best + 1, atHz.length - 1)] as number];
	while (high - low > 500) {
		const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
		if (cost(left) < cost(right)) high = right;
		else low = left;
	}
	return (low + high) / 2;
}

/**
 * How far the image is kept down over the band, decibels, by circuits tuned as this one is.
 * @param circuits 1, or 2 with an RF stage
 */
export function imageRejection(
	model: DialModel,
	{ q, coilShare }: AntennaCircuit,
	circuits: 1 | 2,
): readonly { readonly dialHz: number; readonly rejectionDb: number }[] {
	const tunedHz = antennaHz(model, coilShare);
	const { ifHz, side } = model.ground;
	const awayHz = side === 'above' ? 2 * ifHz : -2 * ifHz;
	return overBand(model).flatMap((dialHz) => {
		const imageHz = dialHz + awayHz;
		if (imageHz <= 0) return [];
		const lossDb = (signalHz: number): number => antennaLossDb(q, tunedHz(dialHz), signalHz);
		return [{ dialHz, rejectionDb: circuits * (lossDb(imageHz) - lossDb(dialHz)) }];
	});
}

/** What kind of antenna the circuit is, and what that changes; Q as is usual (chosen). */
export const antennaKinds = {
	wire: {
		usualQ: 60,
		coilWords: 'The coil is put right by its slug, or by a turn more or less.',
		wandWords: 'Try the circuit with a wand: iron adds inductance, brass takes it away.',
	},
	car: {
		usualQ: 60,
		coilWords: 'The coil is put right by its slug. Trim it with the car\u2019s own antenna and lead, or their dummy.',
		wandWords: 'Try the circuit with a wand: iron adds inductance, brass takes it away.',
	},
	loop: {
		usualQ: 80,
		coilWords:
			'The loop is the coil: trim it in its cabinet, back on, leads as they run in use, the signal coupled through a few turns two feet away. Its outer turn, moved apart from the rest, takes inductance away.',
		wandWords:
			'For the three readings a ferrite slab held to the loop adds inductance and a closed turn of wire takes it away; hand and meter leads stay where they are.',
	},
	rod: {
		usualQ: 120,
		coilWords:
			'The coil slides on the rod: toward the middle adds inductance. Slide it for the low end, trim for the high end, by turns, and fix it with wax. Couple the signal through a few turns a foot away; no clips on the rod.',
		wandWords:
			'For the three readings a second piece of rod at its end adds inductance, a closed turn of wire over it takes it away.',
	},
} as const;
