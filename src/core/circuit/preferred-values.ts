/** Series of preferred values, IEC 60063 [iec-60063]. */
export type Series = 'E6' | 'E12' | 'E24' | 'E48' | 'E96';

/** The tolerance that goes with each series, as a share of the value: common practice of the trade. */
export const seriesTolerance: Readonly<Record<Series, number>> = {
	E6: 0.2,
	E12: 0.1,
	E24: 0.05,
	E48: 0.02,
	E96: 0.01,
};

// [iec-60063] E24 is a table: rounding the powers of ten gives eight of its values wrong.
const e24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
const rounded = (count: number) => Array.from({ length: count }, (_, step) => Math.round(100 * 10 ** (step / count)));
const decades: Readonly<Record<Series, readonly number[]>> = {
	E6: e24.filter((_, place) => place % 4 === 0).map((value) => value * 10),
	E12: e24.filter((_, place) => place % 2 === 0).map((value) => value * 10),
	E24: e24.map((value) => value * 10),
	E48: rounded(48),
	E96: rounded(96),
};

/** The number nearest to what was computed that a decimal of few digits stands for: 4.7e-11 rather than 47 * 1e-12. */
const clean = (value: number): number => Number(value.toPrecision(6));

/**
 * All values of a series from `least` to `most`, ascending, in the unit of the two.
 * @example seriesValues('E6', 10, 100) // => [10, 15, 22, 33, 47, 68, 100]
 */
export function seriesValues(series: Series, least: number, most: number): readonly number[] {
	if (!(least > 0) || !(most >= least) || most / least > 1e15) {
		throw new Error(`invalid range: ${least} to ${most}, expected two values above 0 in their order`);
	}
	const values: number[] = [];
	for (let decade = Math.floor(Math.log10(least)) - 2; 10 ** (decade + 2) <= most * 1.001; decade++) {
		for (const step of decades[series]) values.push(clean(step * 10 ** decade));
	}
	return values.filter((value) => value >= least * (1 - 1e-9) && value <= most * (1 + 1e-9));
}

/**
 * The value of a series nearest to the wanted one by ratio, in the same unit.
 * @example nearestPreferred('E96', 16834.2) // => 16900
 */
export function nearestPreferred(series: Series, wanted: number): number {
	const off = (value: number) => Math.abs(Math.log(value / wanted));
	return seriesValues(series, wanted / 2, wanted * 2).reduce((best, value) => (off(value) < off(best) ? value : best));
}

/** How two parts are joined. */
export type Joint = 'alone' | 'series' | 'parallel';

/** One part or two that come near a wanted value. */
export interface PartChoice {
	readonly joint: Joint;
	/** One part or two, the larger first, in the unit of the wanted value. */
	readonly parts: readonly number[];
	/** What they come to. */
	readonly value: number;
	/** (value - wanted) / wanted. */
	readonly offShare: number;
}

/**
 * The best choices of one part or a pair from a stock, nearest first; fewer parts win where the value is the same.
 * Capacitors add in parallel, resistors and coils that do not couple add in series.
 * @param stock values at hand, in the unit of `wanted`; a value may be taken twice
 * @param adding the joint in which this kind of part adds up
 * @param most how many choices to give
 * @example partChoices(80, [47, 33, 100], 'parallel', 1) // => [{ joint: 'parallel', parts: [47, 33], value: 80, offShare: 0 }]
 */
export function partChoices(
	wanted: number,
	stock: readonly number[],
	adding: 'series' | 'parallel',
	most: number,
): readonly PartChoice[] {
	if (!(wanted > 0)) throw new Error(`invalid wanted value: ${wanted}, expected one above 0`);
	const other = adding === 'series' ? 'parallel' : 'series';
	const values = [...new Set(stock)].filter((value) => value > 0).sort((a, b) => b - a);
	const choice = (joint: Joint, parts: readonly number[], value: number): PartChoice => ({
		joint,
		parts,
		value,
		offShare: Math.abs(value - wanted) < 1e-12 * wanted ? 0 : (value - wanted) / wanted,
	});
	const all = values.flatMap((first, place) => [
		choice('alone', [first], first),
		...values
			.slice(place)
			.flatMap((second) => [
				choice(adding, [first, second], first + second),
				choice(other, [first, second], (first * second) / (first + second)),
			]),
	]);
	const rank = (a: PartChoice, b: PartChoice) =>
		Math.abs(a.offShare) - Math.abs(b.offShare) || a.parts.length - b.parts.length;
	return all.sort(rank).slice(0, most);
}
