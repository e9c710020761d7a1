import { expect, test } from 'vitest';
import { attenuatorTable, trueLevel } from './attenuator-table.ts';

const rounded = (value: number): number => Number(value.toFixed(6));

test('places are counted from the one that is known best, with the uncertainty of both', () => {
	const { places, fromDb } = attenuatorTable(
		[
			{ markedDb: 0, readDb: -10, uncertaintyDb: 0.1 },
			{ markedDb: -40, readDb: -51, uncertaintyDb: 0.3 },
			{ markedDb: -20, readDb: -29.4, uncertaintyDb: 0.1 },
		],
		null,
	);
	expect(fromDb).toBe(0);
	expect(places.map(({ markedDb, errorDb }) => [markedDb, rounded(errorDb.value)])).toEqual([
		[-40, -1],
		[-20, 0.6],
		[0, 0],
	]);
	expect(places.map(({ errorDb }) => errorDb.uncertainty)).toEqual([Math.sqrt(0.1), Math.hypot(0.1, 0.1), 0]);
	expect(attenuatorTable([], null)).toEqual({ places: [], fromDb: null, leakDb: null });
});

test('a place that the leak spoils is no measure of the others: it is named, its leak taken out', () => {
	// An attenuator without an error, and a leak 48 dB below its strongest place; signal and leak add as powers.
	const leakDb = -48;
	const read = (markedDb: number) => ({
		markedDb,
		readDb: 10 * Math.log10(10 ** (markedDb / 10) + 10 ** (leakDb / 10)),
		uncertaintyDb: 0.1,
	});
	const aboveDb = { value: read(0).readDb - leakDb, uncertainty: 0.1 };
	const table = attenuatorTable([-60, -40, -20, 0].map(read), { knownDb: 0, aboveDb });
	expect(table.fromDb).toBe(0);
	expect(table.places.map(({ markedDb, isSpoilt }) => [markedDb, isSpoilt])).toEqual([
		[-60, true],
		[-40, true],
		[-20, false],
		[0, false],
	]);
	const [gone, spoilt, sound] = table.places;
	expect(gone).toMatchObject({ uncertaintyDb: null, errorDb: { uncertainty: null } });
	expect(spoilt?.errorDb.value).toBeCloseTo(0, 2);
	// Worst case of a leak 8 dB below: 20 log10(1 + 10^(-8/20)) is 2.9 dB; a uniform chance within 8.686 x 0.398 dB is 2.0.
	expect(spoilt?.uncertaintyDb).toBeCloseTo(2, 1);
	expect(sound?.errorDb.value).toBeCloseTo(0, 2);
	expect(table.leakDb?.value).toBeCloseTo(leakDb, 2);
});

test('a level is corrected at its place and between two, less surely there, and the leak is added to it', () => {
	const table = attenuatorTable(
		[
			{ markedDb: 0, readDb: 0, uncertaintyDb: 0.1 },
			{ markedDb: -20, readDb: -18, uncertaintyDb: 0.2 },
		],
		null,
	);
	expect(trueLevel(table, -20).levelDb).toEqual({ value: -18, uncertainty: 0.2 });
	expect(trueLevel(table, 0).levelDb.value).toBeCloseTo(0, 12);
	const between = trueLevel(table, -10);
	expect(between.levelDb.value).toBeCloseTo(-9, 9);
	// Half of the 2 dB between the places, and what may hide there.
	expect(between.levelDb.uncertainty).toBeGreaterThan(1);
	expect(between).toMatchObject({ isBeyond: false, isNearLeak: false });
	expect(trueLevel(table, -26)).toMatchObject({ isBeyond: true, levelDb: { value: -24 } });

	const leaky = attenuatorTable([], { knownDb: 0, aboveDb: { value: 40, uncertainty: 0 } });
	// The known reading has the leak in it: 40 dB above is what both together are.
	expect(trueLevel(leaky, -32)).toMatchObject({ isNearLeak: true });
	expect(trueLevel(leaky, -32).levelDb.value).toBeCloseTo(-32 + 10 * Math.log10(1 + 10 ** -0.8), 6);
	expect(trueLevel(leaky, -20).isNearLeak).toBe(false);
});
