import type { Estimate } from '#core/numeric/estimate.ts';

/** A resonance found with a known capacitor across the coil. */
export interface CoilResonance {
	readonly frequencyHz: Estimate;
	/** The capacitor put across the coil, self-capacity not counted. */
	readonly capacitanceF: Estimate;
}

/** What two resonances say of a coil. */
export interface CoilFromResonances {
	readonly inductanceH: Estimate;
	readonly selfCapacitanceF: Estimate;
}

const omega2 = (frequencyHz: number): number => (2 * Math.PI * frequencyHz) ** 2;

/**
 * Capacitance in farads that tunes a coil to a frequency: C = 1 / (w^2 L).
 * @example resonantCapacitanceF(239e-6, 1e6) // => ~1.0598e-10
 */
export function resonantCapacitanceF(inductanceH: number, frequencyHz: number): number {
	return 1 / (omega2(frequencyHz) * inductanceH);
}

function coilOf(lowHz: number, lowF: number, highHz: number, highF: number): readonly [number, number] {
	// [helfrick-cooper] ex. 6-4: Cd = (C1 - r^2 C2) / (r^2 - 1), r = f2 / f1.
	const ratio2 = (highHz / lowHz) ** 2;
	const selfF = (lowF - ratio2 * highF) / (ratio2 - 1);
	return [1 / (omega2(lowHz) * (lowF + selfF)), selfF];
}

/**
 * Inductance and self-capacity of a coil from two resonances, lower frequency first, with the uncertainties of frequencies and capacitors carried on, [helfrick-cooper].
 * The coil is taken for an inductance with one capacity across it: true well below its own resonance.
 * @throws when the second frequency is not above the first
 */
export function coilFromResonances(low: CoilResonance, high: CoilResonance): CoilFromResonances {
	const given = [low.frequencyHz, low.capacitanceF, high.frequencyHz, high.capacitanceF];
	const at = given.map(({ value }) => value) as [number, number, number, number];
	if (!(at[2] > at[0] && at[0] > 0)) {
		throw new Error(`invalid resonances: ${at[0]} and ${at[2]} Hz, expected the lower frequency first`);
	}
	const [inductanceH, selfF] = coilOf(...at);
	const variances: [number, number] | null = given.some(({ uncertainty }) => uncertainty === null) ? null : [0, 0];
	for (const [place, { value, uncertainty }] of given.entries()) {
		if (variances === null || uncertainty === null) break;
		const step = 1e-6 * value || 1e-18;
		const moved = at.map((entry, other) => (other === place ? entry + step : entry)) as typeof at;
		const [movedH, movedF] = coilOf(...moved);
		variances[0] += (((movedH - inductanceH) / step) * uncertainty) ** 2;
		variances[1] += (((movedF - selfF) / step) * uncertainty) ** 2;
	}
	return {
		inductanceH: { value: inductanceH, uncertainty: variances && Math.sqrt(variances[0]) },
		selfCapacitanceF: { value: selfF, uncertainty: variances && Math.sqrt(variances[1]) },
	};
}

/** Where a response has fallen by a stated number of decibels on both sides. */
export interface Edges {
	readonly lowHz: number;
	readonly highHz: number;
	readonly belowPeakDb: number;
	/** Standard uncertainty of each edge. */
	readonly edgeUncertaintyHz: number;
}

/**
 * Q of one tuned circuit from the edges of its response: 3.01 dB gives f / width; other depths by the law of a single circuit.
 * Not for coupled pairs.
 */
export function qFromEdges({ lowHz, highHz, belowPeakDb, edgeUncertaintyHz }: Edges): Estimate {
	if (!(lowHz > 0 && highHz > lowHz && belowPeakDb > 0)) {
		throw new Error(`invalid edges: ${lowHz} to ${highHz} Hz at ${belowPeakDb} dB, expected two edges below the peak`);
	}
	// |A|^2 = 1 / (1 + Q^2 (f/f0 - f0/f)^2); at two edges of the same depth f0^2 = f1 f2, which makes the bracket (f2 - f1) / f0.
	const centreHz = Math.sqrt(lowHz * highHz);
	const q = (Math.sqrt(10 ** (belowPeakDb / 10) - 1) * centreHz) / (highHz - lowHz);
	return { value: q, uncertainty: (q * Math.SQRT2 * edgeUncertaintyHz) / (highHz - lowHz) };
}

/** A resistor across a tuned circuit that widens it. */
export interface Damping {
	/** Parallel resistance of the circuit as it is. */
	readonly ownOhm: number;
	/** Parallel resistance that the wanted width needs. */
	readonly neededOhm: number;
	readonly shuntOhm: number;
	/** Fall of the peak when the circuit is driven by a tube of high plate resistance. */
	readonly lossDb: number;
}

/**
 * Resistor across a tuned circuit for a wanted width at 3 dB, [frenzel] ex. 2.22.
 * @throws when the circuit is already as wide
 */
export function dampingResistor(inductanceH: number, q: number, frequencyHz: number, wantedWidthHz: number): Damping {
	const wantedQ = frequencyHz / wantedWidthHz;
	if (!(wantedQ < q && wantedQ > 0)) {
		throw new Error(
			`invalid width: ${wantedWidthHz} Hz, expected one above ${frequencyHz / q} Hz, which the circuit has`,
		);
	}
	const reactanceOhm = 2 * Math.PI * frequencyHz * inductanceH;
	// Series loss turned into a parallel one: Rp = Rs (Q^2 + 1) = X (Q + 1/Q).
	const ownOhm = reactanceOhm * (q + 1 / q);
	const neededOhm = reactanceOhm * wantedQ;
	return {
		ownOhm,
		neededOhm,
		shuntOhm: 1 / (1 / neededOhm - 1 / ownOhm),
		lossDb: 20 * Math.log10(ownOhm / neededOhm),
	};
}

/**
 * Width at 3 dB, hertz, that a tuned circuit has with another resistor across it than the one that was reckoned: Q = R / X, [frenzel] ex. 2.22.
 * @param wantedWidthHz that the reckoned one gives
 */
export function dampedWidthHz({ ownOhm, neededOhm }: Damping, wantedWidthHz: number, shuntOhm: number): number {
	return wantedWidthHz * neededOhm * (1 / ownOhm + 1 / shuntOhm);
}
