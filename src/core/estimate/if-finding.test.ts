import { describe, expect, test } from 'vitest';
import { ifAsDesigned, ifAsFound, ifFromDial } from './if-finding.ts';
import { offListShare, usedIfs } from './used-ifs.ts';
import { whistles } from './whistles.ts';

const nowhere = { year: null, country: null, habitHz: null };

describe('the IF as found', () => {
	// [kennedy] ex. 7.1: 1,000 kc and its image 1,910 kc at 455 kc. [beasley-miller] ex. 3.2: 620 kc, oscillator 1,075, image 1,530.
	test('comes from published image pairs and oscillators', () => {
		const pair = { kind: 'image pair', lowHz: 1000e3, highHz: 1910e3, uncertaintyHz: 1e3 } as const;
		expect(ifAsFound([pair]).ifHz.value).toBe(455e3);
		expect(ifAsFound([pair]).ifHz.uncertainty).toBeCloseTo(1000 / Math.SQRT2, 6);
		const counted = { kind: 'oscillator', oscillatorHz: 1075e3, heardHz: 620e3, uncertaintyHz: 1e3 } as const;
		expect(ifAsFound([counted]).ifHz.value).toBe(455e3);
		const both = ifAsFound([pair, counted, { kind: 'whistle', frequencyHz: 1365e3, uncertaintyHz: 1e3 }]);
		// 1,365 kc is three times 455.
		expect(both.ifHz.value).toBeCloseTo(455e3, 3);
		expect(both.disagrees).toBe(false);
	});

	test('says when its ways are of different things', () => {
		const pair = { kind: 'image pair', lowHz: 1000e3, highHz: 1910e3, uncertaintyHz: 1e3 } as const;
		expect(ifAsFound([pair, { kind: 'sweep', peakHz: 470e3, uncertaintyHz: 500 }]).disagrees).toBe(true);
	});
});

// Arithmetic: 2 x 455 = 910, 3 x 455 = 1,365; 4 x 175 = 700, 5 x 175 = 875, 9 x 175 = 1,575.
describe('whistles of the IF', () => {
	const at = (kc: number) => ({ kind: 'whistle', frequencyHz: kc * 1e3, uncertaintyHz: 1e3 }) as const;
	test('are taken for the harmonic that the other ways make them', () => {
		const swept = { kind: 'sweep', peakHz: 175e3, uncertaintyHz: 500 } as const;
		for (const kc of [700, 875, 1575]) {
			const { ifHz, disagrees } = ifAsFound([swept, at(kc)]);
			expect(ifHz.value).toBeCloseTo(175e3, 3);
			expect(disagrees).toBe(false);
		}
		expect(ifAsFound([swept, at(790)]).disagrees).toBe(true);
	});

	test('are harmonics of one IF when there is nothing else, and of the second order when there is but one', () => {
		for (const [places, ifKc] of [
			[[910], 455],
			[[1365, 910], 455],
			[[875, 700], 175],
			[[1575, 1400, 700], 175],
		] as const) {
			const { ifHz, disagrees } = ifAsFound(places.map(at));
			expect(ifHz.value / 1e3).toBeCloseTo(ifKc, 6);
			expect(disagrees).toBe(false);
		}
		expect(ifAsFound([at(910), at(1111)]).disagrees).toBe(true);
	});
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values of chi-squared at 0.01: 6.635 with one degree of freedom, 9.210 with two.
test('ways differ when chance does it less often than once in a hundred times, whether they are two or three', () => {
	const peaks = (...offs: readonly number[]) =>
		offs.map((off) => ({ kind: 'sweep', peakHz: 455e3 + 1e3 * off, uncertaintyHz: 1e3 }) as const);
	for (const [share, disagrees] of [
		[0.98, false],
		[1.02, true],
	] as const) {
		const two = Math.sqrt((share * 6.635) / 2);
		expect(ifAsFound(peaks(-two, two)).disagrees).toBe(disagrees);
		const three = Math.sqrt((share * 9.21) / 2);
		expect(ifAsFound(peaks(-three, 0, three)).disagrees).toBe(disagrees);
	}
});

describe('the IF as designed', () => {
	test('is a list whose probabilities add up to 1 with the rest, and never snaps to 455', () => {
		const { list, restProbability } = ifAsDesigned({ value: 461e3, uncertainty: 700 }, null, nowhere);
		expect(list.reduce((sum, { probability }) => sum + probability, restProbability)).toBeCloseTo(1, 9);
		const of = (kc: number): number => list.find(({ ifHz }) => ifHz === kc * 1e3)?.probability ?? 0;
		expect(list[0]?.probability).toBeLessThan(0.6);
		for (const kc of [455, 456, 460, 465]) expect(of(kc)).toBeGreaterThan(0.05);
	});

	test('follows what is known of the set', () => {
		const found = { value: 461e3, uncertainty: 700 };
		const of = (origin: Parameters<typeof ifAsDesigned>[2], kc: number): number =>
			ifAsDesigned(found, null, origin).list.find(({ ifHz }) => ifHz === kc * 1e3)?.probability ?? 0;
		expect(of({ ...nowhere, year: 1947, country: 'US' }, 455)).toBeGreaterThan(of({ ...nowhere, country: 'UK' }, 455));
		expect(of({ ...nowhere, habitHz: 465e3 }, 465)).toBeGreaterThan(0.5);
		expect(ifAsDesigned({ value: 176e3, uncertainty: 1e3 }, null, nowhere).list[0]?.ifHz).toBe(175e3);
	});

	// Closed form: an oscillator drawn for 465 kc and heard through a strip at 455 lies 465 above every mark.
	test('hears the dial: an oscillator that lies 465 kc above its marks was drawn for about 465', () => {
		const marks = [600e3, 1000e3, 1400e3].map((dialHz) => ({ dialHz, heardHz: dialHz + 10e3 }));
		const fromDial = ifFromDial(marks, { value: 455e3, uncertainty: 700 }, 'above');
		expect(fromDial?.value).toBeCloseTo(465e3, 3);
		expect(fromDial?.uncertainty as number).toBeGreaterThan(6e3);
		expect(ifFromDial([], { value: 455e3, uncertainty: 700 }, 'above')).toBeNull();
	});

	// Closed form: an oscillator drawn to lie 465 kc below every mark and heard through a strip at 455 is heard 10 kc below it.
	test('hears the dial of an oscillator below the signal as well', () => {
		const marks = [6e6, 10e6, 17e6].map((dialHz) => ({ dialHz, heardHz: dialHz - 465e3 + 455e3 }));
		expect(ifFromDial(marks, { value: 455e3, uncertainty: 700 }, 'below')?.value).toBeCloseTo(465e3, 3);
	});

	test('a dial that contradicts the IF as found beyond all measure leaves it to no list', () => {
		const { restProbability } = ifAsDesigned(
			{ value: 455e3, uncertainty: 700 },
			{ value: -9e6, uncertainty: 7e3 },
			nowhere,
		);
		expect(restProbability).toBeCloseTo(1, 9);
	});

	test('an IF far from every list is on none', () => {
		for (const kc of [25, 1000, 1600]) {
			const { list, restProbability } = ifAsDesigned({ value: kc * 1e3, uncertainty: 700 }, null, nowhere);
			const sum = list.reduce((all, { probability }) => all + probability, restProbability);
			expect(sum).toBeCloseTo(1, 9);
			if (kc > 500) expect(restProbability).toBeGreaterThan(0.99);
		}
	});

	// [champness-if] names these for Australian sets; [klase-if] 175 and 262.
	test('knows the IFs that sources name', () => {
		const known = usedIfs(nowhere).map(({ ifHz }) => ifHz / 1e3);
		for (const kc of [30, 175, 181.5, 212.5, 252.5, 262.5, 390, 445, 450, 455, 456, 457.5, 465, 469, 262]) {
			expect(known).toContain(kc);
		}
		expect(usedIfs(nowhere).reduce((sum, { weight }) => sum + weight, offListShare)).toBeCloseTo(1, 9);
	});
});

describe('whistles', () => {
	const band = { lowHz: 540e3, highHz: 1600e3 };

	// [blake] ex. 6.5: the image of 590 kc is 1,500 kc: a station there is heard at 590. [lectron-osc]: 531 kc, oscillator 986.
	test('a station is heard again two IFs below its place', () => {
		const found = whistles(455e3, band, 'above', [1500e3, 592e3], [592e3]);
		expect(found[0]).toMatchObject({
			kind: 'image',
			dialHz: 590e3,
			stationsHz: [1500e3],
			wantedHz: 592e3,
			toneHz: 2e3,
		});
	});

	// Arithmetic: 2 x 455 = 910, 3 x 455 = 1,365; 2 x 465 = 930; 5 x 175 = 875.
	test.each([
		[455, [910, 1365]],
		[465, [930, 1395]],
		[175, [700, 875, 1050, 1225, 1400, 1575]],
	] as const)('an IF of %s kc makes whistles at its harmonics', (ifKc, placesKc) => {
		const found = whistles(ifKc * 1e3, band, 'above', [], []).filter(({ kind }) => kind === 'IF harmonic');
		expect(found.map(({ dialHz }) => dialHz / 1e3)).toEqual(placesKc);
	});

	test('oscillator harmonics and station pairs fall where the sums say', () => {
		const found = whistles(455e3, band, 'above', [600e3, 1055e3, 2910e3], [600e3, 1055e3]);
		for (const line of found.filter(({ kind }) => kind === 'oscillator harmonic' || kind === 'harmonic of a station')) {
			const oscillatorHz = line.dialHz + 455e3;
			const station = line.stationsHz[0] as number;
			const off = [1, 2, 3].flatMap((m) =>
				[1, 2, 3].map((n) => Math.abs(Math.abs(m * oscillatorHz - n * station) - 455e3)),
			);
			expect(Math.min(...off)).toBeLessThan(1);
		}
		expect(found.filter(({ kind }) => kind === 'stations one IF apart')).toHaveLength(2);
		expect(found.some(({ kind, dialHz }) => kind === 'twice one less another' && dialHz === 1510e3)).toBe(true);
		expect(found.findIndex(({ wantedHz }) => wantedHz === null)).toBeGreaterThan(
			found.findLastIndex(({ wantedHz }) => wantedHz !== null),
		);
	});
});
