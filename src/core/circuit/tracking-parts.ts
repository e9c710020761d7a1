/** The parts that make a gang of equal sections track: coil, padder and trimmer, in closed form without a starting guess. */
import { type BandLimits, type OscillatorSide, type TiePoints, trackingCurve } from './tracking-curve.ts';

/** What is given of a gang and the circuits on it. */
export interface GangGiven {
	/** A section fully meshed. */
	readonly gangF: number;
	/** Trimmer and strays across the section of the circuit without padder. */
	readonly straysF: number;
	/** Where the trimmer of the padded circuit sits. */
	readonly network: 'gang' | 'coil';
	/** Strays of the padded circuit at the other place: across the coil when the trimmer sits at the gang, across the gang when it sits at the coil. */
	readonly otherStraysF: number;
}

/** The circuit with the padder. */
export interface PaddedCircuit {
	readonly inductanceH: number;
	readonly padderF: number;
	/** Trimmer with the strays beside it. */
	readonly trimmerF: number;
}

/** Why no parts make the wanted tracking. */
export type TrackingRefusal =
	/** Oscillator below, signal not above the IF. */
	| 'below the IF'
	/** The tie points ask for a frequency that is none somewhere on the band. */
	| 'tie points'
	/** The gang does not reach the high end for its strays. */
	| 'gang too small'
	/** A padder or coil below nothing. */
	| 'padder'
	/** A trimmer below nothing. */
	| 'trimmer';

/** Parts of a tracked pair of circuits, or why there are none. The padder is the oscillator's when it lies above the signal, the antenna's when below. */
export type TrackingParts =
	| { readonly kind: 'parts'; readonly straightH: number; readonly padded: PaddedCircuit }
	| { readonly kind: 'refused'; readonly why: TrackingRefusal; readonly trimmerF: number | null };

const refused = (why: TrackingRefusal): TrackingParts => ({ kind: 'refused', why, trimmerF: null });

/** Inductance times capacitance at resonance: 1 / (2 pi f)^2. */
const henryFarad = (frequencyHz: number): number => 1 / (2 * Math.PI * frequencyHz) ** 2;

/**
 * The parts for three tie points. u = L C of the padded circuit is (b x + c) / (x + a) in the section's capacitance x: three points are three linear equations.
 */
export function trackingParts(
	pointsHz: TiePoints,
	band: BandLimits,
	ifHz: number,
	side: OscillatorSide,
	{ gangF, straysF, network, otherStraysF }: GangGiven,
): TrackingParts {
	if (side === 'below' && band.lowHz <= ifHz) return refused('below the IF');
	const { oscillatorHz } = trackingCurve(pointsHz, ifHz, side);
	if (![band.lowHz, ...pointsHz, band.highHz].every((at) => oscillatorHz(at) > 0)) return refused('tie points');
	const off = side === 'above' ? 0 : -ifHz;
	const straightH = henryFarad(band.lowHz + off) / (gangF + straysF);
	const sectionF = (signalHz: number): number => henryFarad(signalHz + off) / straightH - straysF;
	if (!(sectionF(band.highHz) >= 0)) return refused('gang too small');
	const [x, u] = [
		pointsHz.map(sectionF),
		pointsHz.map((at) => henryFarad(side === 'above' ? at + ifHz : at)),
	] as unknown as [TiePoints, TiePoints];
	// a (u_i - u_1) - b (x_i - x_1) = u_1 x_1 - u_i x_i
	const du = [u[1] - u[0], u[2] - u[0]] as const;
	const dx = [x[1] - x[0], x[2] - x[0]] as const;
	const right = [u[0] * x[0] - u[1] * x[1], u[0] * x[0] - u[2] * x[2]] as const;
	const whole = dx[0] * du[1] - du[0] * dx[1];
	const a = (dx[0] * right[1] - right[0] * dx[1]) / whole;
	const b = (du[0] * right[1] - right[0] * du[1]) / whole;
	const c = u[0] * (x[0] + a) - b * x[0];
	const padded = network === 'gang' ? trimmerAtGang([a, b, c], otherStraysF) : trimmerAtCoil([a, b, c], otherStraysF);
	return judged(padded, straightH);
}

/** a, b and c of u = (b x + c) / (x + a). */
type Moebius = readonly [number, number, number];

function trimmerAtGang([a, b, c]: Moebius, coilStraysF: number): PaddedCircuit {
	const m = a - c / b;
	const padderF = (m + Math.sqrt(m * m + 4 * m * coilStraysF)) / 2;
	return { inductanceH: b / (coilStraysF + padderF), padderF, trimmerF: a - padderF };
}

function trimmerAtCoil([a, b, c]: Moebius, gangStraysF: number): PaddedCircuit {
	const padderF = a - gangStraysF;
	const inductanceH = (a * b - c) / padderF ** 2;
	return { inductanceH, padderF, trimmerF: b / inductanceH - padderF };
}

function judged(padded: PaddedCircuit, straightH: number): TrackingParts {
	const { inductanceH, padderF, trimmerF } = padded;
	if (!(padderF > 0 && inductanceH > 0)) return refused('padder');
	if (!(trimmerF > 0)) return { kind: 'refused', why: 'trimmer', trimmerF };
	return { kind: 'parts', straightH, padded };
}

/** Capacitance that tunes a padded circuit's coil, with the gang's section at `sectionF`; an endless padder is none. */
export function paddedFarad(
	{ padderF, trimmerF }: PaddedCircuit,
	sectionF: number,
	network: 'gang' | 'coil',
	otherStraysF: number,
): number {
	const [across, beside] = network === 'gang' ? [trimmerF, otherStraysF] : [otherStraysF, trimmerF];
	const gangF = sectionF + across;
	return beside + (padderF === Number.POSITIVE_INFINITY ? gangF : (gangF * padderF) / (gangF + padderF));
}
