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
		const fromDial = ifFromDial(marks, { value: 455e3, uncertainty: 700 });
		expect(fromDial?.value).toBeCloseTo(465e3, 3);
		expect(fromDial?.uncertainty as number).toBeGreaterThan(6e3);
		expect(ifFromDial([], { value: 455e3, uncertainty: 700 })).toBeNull();
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
