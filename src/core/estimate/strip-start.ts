/** A complex tuning: f / IF - 1, and half the width over the IF as the imaginary part. */
interface Tuning {
	readonly re: number;
	readonly im: number;
}

/** A strip that may be behind a base sweep: its parameters, feedback left out, without its gain. */
export type StripIdea = readonly number[];

function squareRoot({ re, im }: Tuning): Tuning {
	const size = Math.hypot(re, im);
	const real = Math.sqrt(Math.max(0, (size + re) / 2));
	const imaginary = Math.sqrt(Math.max(0, (size - re) / 2));
	return { re: real, im: im < 0 ? -imaginary : imaginary };
}

/**
 * The two windings of a can whose resonances are seen, for an assumed coupling: a sweep fixes only S = (z1 + z2) / 2 and W = ((z1 - z2) / 2)^2 + K^2,
 * so every K has its own pair of windings, z = S +- sqrt(W - K^2), with z = tuning + j half width and K = k / 2, all over the IF.
 */
export function windingsFor(one: Tuning, other: Tuning, halfCoupling: number): readonly [Tuning, Tuning] {
	const middle = { re: (one.re + other.re) / 2, im: (one.im + other.im) / 2 };
	const apart = { re: (one.re - other.re) / 2, im: (one.im - other.im) / 2 };
	const root = squareRoot({
		re: apart.re * apart.re - apart.im * apart.im - halfCoupling * halfCoupling,
		im: 2 * apart.re * apart.im,
	});
	return [
		{ re: middle.re + root.re, im: middle.im + root.im },
		{ re: middle.re - root.re, im: middle.im - root.im },
	];
}

/** Ways to give four resonances to two cans, by their places: the first two to the one, the rest to the other. */
export const pairings = [
	[0, 1, 2, 3],
	[0, 2, 1, 3],
	[0, 3, 1, 2],
] as const;
/** Couplings tried, as shares of the mean half width's critical one. */
const couplingShares = [0.65, 1, 1.4] as const;

/**
 * The four resonances of a strip as complex tunings.
 * @param resonances eight parameters of a sweep's product of resonances
 */
export function tuningsOf(resonances: Float64Array): readonly [Tuning, Tuning, Tuning, Tuning] {
	const tuning = (place: number): Tuning => ({
		re: resonances[place] as number,
		im: Math.exp(resonances[4 + place] as number),
	});
	return [tuning(0), tuning(1), tuning(2), tuning(3)];
}

interface CanIdea {
	readonly windings: readonly [Tuning, Tuning];
	readonly coupling: number;
}

function canWith(one: Tuning, other: Tuning, share: number): CanIdea {
	const mean = (one.im + other.im) / 2;
	// A winding is never thought wider or narrower than about twice the can's mean: the rest is left to the fit.
	const within = ({ re, im }: Tuning): Tuning => ({ re, im: Math.min(2.2 * mean, Math.max(0.45 * mean, im)) });
	const [first, second] = windingsFor(one, other, share * mean);
	return { windings: [within(first), within(second)], coupling: Math.log(2 * share * mean) };
}

/**
 * Strips whose curve is that of four resonances: every pairing into cans, with three couplings for each.
 * @param resonances eight parameters of the base sweep's product of resonances
 */
export function stripIdeas(resonances: Float64Array): readonly StripIdea[] {
	const poles = tuningsOf(resonances);
	return pairings.flatMap(([a, b, c, d]) =>
		couplingShares.flatMap((first) =>
			couplingShares.map((second) => {
				const cans = [canWith(poles[a], poles[b], first), canWith(poles[c], poles[d], second)];
				const windings = cans.flatMap((can) => can.windings);
				return [
					...windings.map(({ re }) => re),
					...windings.map(({ im }) => Math.log(im)),
					...cans.map(({ coupling }) => coupling),
					0,
				];
			}),
		),
	);
}

/** The windings of either can as they are and in each other's place. */
const orders = [
	[0, 1, 2, 3],
	[1, 0, 2, 3],
	[0, 1, 3, 2],
	[1, 0, 3, 2],
] as const;

/**
 * The same strips where there is feedback: it tells which winding of a can is the one beside the tube, so each can stands either way round.
 * @param resonances eight parameters of the base sweep's product of resonances
 */
export function fedIdeas(resonances: Float64Array): readonly StripIdea[] {
	return stripIdeas(resonances).flatMap((idea) =>
		orders.map((order) => [
			...order.map((winding) => idea[winding] as number),
			...order.map((winding) => idea[4 + winding] as number),
			...idea.slice(8),
		]),
	);
}
