/**
 * Three-point tracking. With a gang of equal sections the oscillator's 1/Fo^2 is a broken linear function of the signal circuit's
 * 1/f^2, whatever the padder's and trimmer's places, and three tie points fix it. So the error curve depends on the tie points and
 * the IF alone. Formulas from memory in the letters of the handbooks [terman-tracking]; proved by the error's own identity and by circuit.
 */
import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';

/** Where the oscillator lies against the signal. */
export type OscillatorSide = 'above' | 'below';

/** Three frequencies at which dial, antenna and oscillator agree, hertz, ascending. */
export type TiePoints = readonly [number, number, number];

/** The tracking of one band, from its tie points and its IF. */
export interface TrackingCurve {
	/** The oscillator's frequency when the signal circuit is tuned to `signalHz`. */
	oscillatorHz(signalHz: number): number;
	/** What comes in less what the signal circuit is tuned to: oscillator less IF less dial (oscillator above). */
	errorHz(signalHz: number): number;
	/** Lowest oscillator frequency, with a gang of endless capacitance. */
	readonly limitHz: number;
}

/**
 * The tracking curve through three tie points.
 * @param pointsHz ascending; with the oscillator below, all above the IF
 * @example Math.round(trackingCurve([600e3, 1000e3, 1400e3], 455e3, 'above').errorHz(540e3)) // => 4577
 */
export function trackingCurve(pointsHz: TiePoints, ifHz: number, side: OscillatorSide): TrackingCurve {
	const [f1, f2, f3] = pointsHz;
	if (!(f1 > 0 && f2 > f1 && f3 > f2 && ifHz > 0)) {
		throw new Error(`invalid tie points: ${pointsHz.join(', ')} Hz, expected three ascending`);
	}
	const fi = side === 'above' ? ifHz : -ifHz;
	// [terman-tracking] the formulas' own letters.
	const a = f1 + f2 + f3;
	const b2 = f1 * f2 + f2 * f3 + f3 * f1;
	const c3 = f1 * f2 * f3;
	const d = a + 2 * fi;
	const l2 = (b2 * d - c3) / (2 * fi);
	const m2 = l2 + fi * fi + a * d - b2;
	const n2 = (c3 * d + fi * fi * l2) / m2;
	const oscillatorHz = (signalHz: number): number => {
		const v = signalHz * signalHz;
		return Math.sqrt((m2 * (v + n2)) / (v + l2));
	};
	return {
		oscillatorHz,
		errorHz: (signalHz) => {
			const fall = (signalHz - f1) * (signalHz - f2) * (signalHz - f3) * (signalHz + d);
			return -fall / ((signalHz * signalHz + l2) * (oscillatorHz(signalHz) + signalHz + fi));
		},
		limitHz: Math.sqrt((m2 * n2) / l2),
	};
}

/**
 * Loss of one tuned circuit off its resonance, decibels: 20 log (1 + Q^2 rho^2)^(1/2), rho = signal / resonance - resonance / signal [kennedy] ex. 7.1.
 * @example antennaLossDb(60, 600e3, 605e3) // => ~3.0
 */
export function antennaLossDb(q: number, resonanceHz: number, signalHz: number): number {
	const ratio = signalHz / resonanceHz;
	return 10 * Math.log10(1 + (q * (ratio - 1 / ratio)) ** 2);
}

/** Limits of a band, hertz. */
export interface BandLimits {
	readonly lowHz: number;
	readonly highHz: number;
}

const goldenShare = (Math.sqrt(5) - 1) / 2;

/** The place of the greatest value between two, by a coarse look and golden sections. */
function greatestAt(from: number, to: number, size: (at: number) => number): number {
	const looks = 16;
	let best = 0;
	const at = (number: number): number => from + ((to - from) * number) / looks;
	for (let look = 1; look <= looks; look++) if (size(at(look)) > size(at(best))) best = look;
	let low = at(Math.max(best - 1, 0));
	let high = at(Math.min(best + 1, looks));
	for (let step = 0; step < 40; step++) {
		const left = high - goldenShare * (high - low);
		const right = low + goldenShare * (high - low);
		if (size(left) > size(right)) high = right;
		else low = left;
	}
	const inner = (low + high) / 2;
	return [from, to].reduce((one, end) => (size(end) > size(one) ? end : one), inner);
}

/** The greatest error in each stretch between the band's ends and the tie points, dial and error in hertz, ascending. */
function lobes(
	{ lowHz, highHz }: BandLimits,
	pointsHz: TiePoints,
	valueAt: (signalHz: number) => number,
): readonly { readonly dialHz: number; readonly value: number }[] {
	const edges = [lowHz, ...pointsHz.filter((point) => point > lowHz && point < highHz), highHz];
	return edges.slice(1).map((to, place) => {
		const dialHz = greatestAt(edges[place] as number, to, (at) => Math.abs(valueAt(at)));
		return { dialHz, value: valueAt(dialHz) };
	});
}

/** The greatest tracking errors of a band, one in each stretch between its ends and its tie points. */
export function trackingPeaks(
	band: BandLimits,
	pointsHz: TiePoints,
	ifHz: number,
	side: OscillatorSide,
): readonly { readonly dialHz: number; readonly errorHz: number }[] {
	const { errorHz } = trackingCurve(pointsHz, ifHz, side);
	return lobes(band, pointsHz, errorHz).map(({ dialHz, value }) => ({ dialHz, errorHz: value }));
}

/** Three points of a band, hertz, where the polynomial of third order that strays least from nought has its noughts: where the search for the best begins. */
export function chebyshevPoints({ lowHz, highHz }: BandLimits): TiePoints {
	const at = (share: number): number => (lowHz + highHz) / 2 + (share * (highHz - lowHz)) / 2;
	const off = Math.cos(Math.PI / 6);
	return [at(-off), at(0), at(off)];
}

/**
 * Tie points for which the worst of the band is least: all four stretches err alike (equal ripple).
 * `kilocycles` levels the errors, `loss` the detuning that they are to the antenna circuit, error over dial, and so its loss, at any Q.
 * @throws when no such points are found, as for a band without width
 */
export function bestTiePoints(
	band: BandLimits,
	ifHz: number,
	side: OscillatorSide,
	aim: 'kilocycles' | 'loss',
): TiePoints {
	const uneven = (pointsHz: readonly number[]): number[] => {
		const points = pointsHz as unknown as TiePoints;
		const { errorHz } = trackingCurve(points, ifHz, side);
		const valueAt = aim === 'kilocycles' ? errorHz : (dialHz: number) => detuning(dialHz, errorHz(dialHz));
		const sizes = lobes(band, points, valueAt).map(({ value }) => Math.log(Math.abs(value)));
		return sizes.slice(1).map((size, place) => size - (sizes[place] as number));
	};
	let points: readonly number[] = chebyshevPoints(band);
	for (let step = 0; step < 40; step++) {
		const off = uneven(points);
		if (Math.max(...off.map(Math.abs)) < 1e-10) break;
		points = improved(points, off, uneven, band);
	}
	if (!(Math.max(...uneven(points).map(Math.abs)) < 1e-4)) {
		throw new Error(
			`invalid band: ${band.lowHz} to ${band.highHz} Hz, expected one whose errors can be levelled at this IF`,
		);
	}
	return points as unknown as TiePoints;
}

function detuning(dialHz: number, errorHz: number): number {
	const ratio = 1 + errorHz / dialHz;
	return ratio - 1 / ratio;
}

/** One step of Newton's method on three tie points, shortened until they stay in order within the band. */
function improved(
	pointsHz: readonly number[],
	off: readonly number[],
	uneven: (pointsHz: readonly number[]) => number[],
	{ lowHz, highHz }: BandLimits,
): readonly number[] {
	const step = 1e-6 * (highHz - lowHz);
	const columns = pointsHz.map((_, moved) =>
		uneven(pointsHz.map((point, place) => (place === moved ? point + step : point))).map(
			(value, row) => (value - (off[row] as number)) / step,
		),
	);
	// Scaled by the band, so that the normal equations are near one.
	const span = highHz - lowHz;
	const entry = (row: number, column: number): number => (columns[column]?.[row] as number) * span;
	const normal = new Float64Array(9);
	const right = new Float64Array(3);
	for (let i = 0; i < 3; i++) {
		for (let j = 0; j < 3; j++)
			for (let row = 0; row < 3; row++)
				normal[3 * i + j] = (normal[3 * i + j] as number) + entry(row, i) * entry(row, j);
		for (let row = 0; row < 3; row++) right[i] = (right[i] as number) - entry(row, i) * (off[row] as number);
	}
	const move = symmetricSolve(normal, right);
	for (let share = 1; share > 1e-3; share /= 2) {
		const next = pointsHz.map((point, place) => point + share * span * (move[place] as number));
		const [f1, f2, f3] = next as [number, number, number];
		if (f1 > lowHz && f2 > f1 && f3 > f2 && f3 < highHz) return next;
	}
	return pointsHz;
}
