import type { Estimate } from '#core/numeric/estimate.ts';

const dbPerNeper = 20 / Math.LN10;

/** One place of an attenuator and what was read there. */
export interface StepReading {
	/** What the attenuator is marked with, decibels; more is stronger. */
	readonly markedDb: number;
	/** In proportion to the signal: below the AVC knee, or with AVC taken out. */
	readonly readDb: number;
	readonly uncertaintyDb: number;
}

/** What leaks past an attenuator, told by a level that is marked. */
export interface LeakBelow {
	/** Mark of the known level, decibels as the table counts them. */
	readonly knownDb: number;
	/** How far the known level read above the leak, the leak in both. */
	readonly aboveDb: Estimate;
}

/** One place of a table. */
export interface AttenuatorPlace {
	readonly markedDb: number;
	/** True less marked, against the best-known place, the leak taken out; with the uncertainty of both. */
	readonly errorDb: Estimate;
	/** Of this place alone, decibels; `null` where only the leak was read. */
	readonly uncertaintyDb: number | null;
	/** The leak may change what is read here by more than 1 dB. */
	readonly isSpoilt: boolean;
}

/** What an attenuator's marks are worth against each other. */
export interface AttenuatorTable {
	/** Ascending; empty where only the leak is known. */
	readonly places: readonly AttenuatorPlace[];
	/** Mark of the place that the others are counted from; `null` without places. */
	readonly fromDb: number | null;
	/** The leak as a level of this table, decibels; `null` where it was not read. */
	readonly leakDb: Estimate | null;
}

/** From so far above the leak on it changes a level by less than 1 dB, in step or out of step: 1 - leak / signal = 10^(-1/20). */
const unspoiltDb = -20 * Math.log10(1 - 10 ** (-1 / 20));
/** Less than this above the leak a reading is the leak's and tells nothing of the attenuator, decibels (chosen). */
const leastAboveDb = 3;

/** What a leak may do to a level, in step or out of step: a uniform chance within the worst case, decibels of one standard deviation. */
function leakShareDb(aboveDb: number): number {
	return (dbPerNeper * 10 ** (-Math.abs(aboveDb) / 20)) / Math.sqrt(3);
}

/** Between the readings next to a mark, or as the nearest one. */
function readAt(readings: readonly StepReading[], markedDb: number): Estimate {
	const low = readings.findLast((one) => one.markedDb <= markedDb) ?? readings[0];
	const high = readings.find((one) => one.markedDb >= markedDb) ?? readings.at(-1);
	if (!low || !high) return { value: markedDb, uncertainty: 0 };
	const share = high === low ? 0 : (markedDb - low.markedDb) / (high.markedDb - low.markedDb);
	const errorDb = (1 - share) * (low.readDb - low.markedDb) + share * (high.readDb - high.markedDb);
	return {
		value: markedDb + errorDb,
		uncertainty: Math.hypot((1 - share) * low.uncertaintyDb, share * high.uncertaintyDb),
	};
}

/** Reading of the leak by itself, on the scale of the readings. */
function floorOf(readings: readonly StepReading[], { knownDb, aboveDb }: LeakBelow): Estimate {
	const known = readAt(readings, knownDb);
	return {
		value: known.value - aboveDb.value,
		uncertainty: Math.hypot(known.uncertainty ?? 0, aboveDb.uncertainty ?? 0, leakShareDb(aboveDb.value)),
	};
}

/** A place alone, what leaks taken out of its reading as a power, with what the leak's unknown phase leaves uncertain. */
function alone(reading: StepReading, floor: Estimate | null): StepReading & { readonly isSpoilt: boolean } {
	if (floor === null) return { ...reading, isSpoilt: false };
	const aboveDb = reading.readDb - floor.value;
	if (aboveDb < leastAboveDb) return { ...reading, uncertaintyDb: Number.POSITIVE_INFINITY, isSpoilt: true };
	const readDb = reading.readDb + 10 * Math.log10(1 - 10 ** (-aboveDb / 10));
	const ownDb = readDb - floor.value;
	const byFloorDb = (floor.uncertainty ?? 0) * 10 ** (-ownDb / 10);
	return {
		...reading,
		readDb,
		uncertaintyDb: Math.hypot(reading.uncertaintyDb, leakShareDb(ownDb), byFloorDb),
		isSpoilt: ownDb < unspoiltDb,
	};
}

/**
 * The table of an attenuator from its places in any order, each once. They are counted from the one that is known best: the leak makes weak ones uncertain,
 * and of places that are known alike the strongest is taken.
 * @param leak `null` where it was not read
 * @example attenuatorTable([{ markedDb: -20, readDb: -29.4, uncertaintyDb: 0.2 }, { markedDb: 0, readDb: -10, uncertaintyDb: 0.1 }], null).places[0].errorDb.value // => ~0.6
 */
export function attenuatorTable(readings: readonly StepReading[], leak: LeakBelow | null): AttenuatorTable {
	const ascending = readings.toSorted((one, other) => one.markedDb - other.markedDb);
	const floor = leak && floorOf(ascending, leak);
	const places = ascending.map((reading) => alone(reading, floor));
	const best = places.reduce<(typeof places)[number] | undefined>(
		(known, one) => (known && known.uncertaintyDb < one.uncertaintyDb ? known : one),
		undefined,
	);
	const offDb = best ? best.readDb - best.markedDb : 0;
	return {
		places: places.map((place) => {
			const isKnown = Number.isFinite(place.uncertaintyDb);
			const bothDb = place === best ? 0 : Math.hypot(place.uncertaintyDb, best?.uncertaintyDb ?? 0);
			return {
				markedDb: place.markedDb,
				errorDb: { value: place.readDb - place.markedDb - offDb, uncertainty: isKnown ? bothDb : null },
				uncertaintyDb: isKnown ? place.uncertaintyDb : null,
				isSpoilt: place.isSpoilt,
			};
		}),
		fromDb: best?.markedDb ?? null,
		leakDb: floor && { value: floor.value - offDb, uncertainty: floor.uncertainty },
	};
}

/** A level as its generator gives it. */
export interface TrueLevel {
	/** Decibels as the table counts them; only differences of one table mean anything. The uncertainty is this level's own. */
	readonly levelDb: Estimate;
	/** It comes within 10 dB of the leak: the two cannot be told apart. */
	readonly isNearLeak: boolean;
	/** The table does not reach there. */
	readonly isBeyond: boolean;
}

/** A mark this near a place of the table is that place, decibels (chosen: what a knob is set to). */
const sameDb = 0.5;
/** What may hide between two places that are 20 dB apart, decibels of one standard deviation (chosen, common practice: a worn control is off by a decibel or two). */
const hiddenDb = 1.5;
/** What a mark outside the table is worth (chosen: two places of a worn attenuator differ by as much). */
const beyondDb = 2;
/** Nearer than this to the leak a level is told apart no more (chosen: the leak then moves it by up to 3 dB). */
const nearLeakDb = 10;

/** Error at a mark, and how well it is known there. */
function errorAt(places: readonly AttenuatorPlace[], markedDb: number): { value: number; uncertainty: number } | null {
	const known = places.flatMap(({ markedDb: at, errorDb, uncertaintyDb }) =>
		uncertaintyDb === null ? [] : [{ markedDb: at, value: errorDb.value, uncertainty: uncertaintyDb }],
	);
	const same = known.find((place) => Math.abs(place.markedDb - markedDb) <= sameDb);
	if (same) return same;
	const low = known.findLast((place) => place.markedDb < markedDb);
	const high = known.find((place) => place.markedDb > markedDb);
	if (!low || !high) return null;
	const gapDb = high.markedDb - low.markedDb;
	const share = (markedDb - low.markedDb) / gapDb;
	// Somewhere between the two the switch may have been moved, all at once: as far off the straight way as that is, by chance.
	const chance = Math.sqrt(share * (1 - share));
	return {
		value: (1 - share) * low.value + share * high.value,
		uncertainty: Math.hypot(
			(1 - share) * low.uncertainty,
			share * high.uncertainty,
			(high.value - low.value) * chance,
			2 * hiddenDb * (gapDb / 20) * chance,
		),
	};
}

/** What a marked level truly is, by the table, the leak added to it as a power. */
export function trueLevel({ places, leakDb }: AttenuatorTable, markedDb: number): TrueLevel {
	const found = errorAt(places, markedDb);
	const nearest = places
		.filter(({ uncertaintyDb }) => uncertaintyDb !== null)
		.sort((one, other) => Math.abs(one.markedDb - markedDb) - Math.abs(other.markedDb - markedDb))[0];
	const error = found ?? {
		value: nearest?.errorDb.value ?? 0,
		uncertainty: nearest ? Math.hypot(nearest.uncertaintyDb ?? 0, beyondDb) : 0,
	};
	const ownDb = markedDb + error.value;
	const isBeyond = found === null;
	if (leakDb === null)
		return { levelDb: { value: ownDb, uncertainty: error.uncertainty }, isNearLeak: false, isBeyond };
	const aboveDb = ownDb - leakDb.value;
	return {
		levelDb: {
			value: ownDb + 10 * Math.log10(1 + 10 ** (-aboveDb / 10)),
			uncertainty: Math.hypot(error.uncertainty, leakShareDb(aboveDb)),
		},
		isNearLeak: aboveDb < nearLeakDb,
		isBeyond,
	};
}
