import { besselI0Scaled, besselI1Scaled } from '#core/numeric/bessel.ts';
import { MatrixExponential } from '#core/numeric/matrix-exponential.ts';
import { DiodeLaw, diode } from './diode-law.ts';
import { DiodePulse } from './diode-pulse.ts';
import { diodeBend } from './strip-stepper.ts';
import type { SetValues } from './values.ts';

/** What a mean current between three samples does to one voltage: factors of its next, its present and its last value, ohms. */
interface CurrentShare {
	readonly nextOhm: number;
	readonly nowOhm: number;
	readonly lastOhm: number;
}

/** The load and the AVC line over one sample: the voltages' own decay and what the diode's mean current adds. */
interface LoadStep {
	readonly decay: readonly [number, number, number, number];
	readonly load: CurrentShare;
	readonly avc: CurrentShare;
}

function loadStep({ detector }: SetValues, periodS: number): LoadStep {
	const { loadOhm, reservoirF, avcOhm, avcF, avcLeakS } = detector;
	// Load voltage, AVC voltage, then the current and its rise over the sample, which integrate the line.
	const n = 4;
	const matrix = new Float64Array(n * n);
	matrix[0] = (-periodS * (1 / loadOhm + 1 / avcOhm)) / reservoirF;
	matrix[1] = periodS / (avcOhm * reservoirF);
	matrix[2] = periodS / reservoirF;
	matrix[n] = periodS / (avcOhm * avcF);
	matrix[n + 1] = (-periodS * (1 / avcOhm + avcLeakS)) / avcF;
	matrix[2 * n + 3] = 1;
	const whole = new MatrixExponential(n).of(matrix, 1);
	const at = (row: number, column: number): number => whole[row * n + column] as number;
	const share = (row: number): CurrentShare => {
		const one = at(row, 2);
		const two = at(row, 3);
		const bend = diodeBend * one;
		return { nextOhm: two + bend, nowOhm: one - two - 2 * bend, lastOhm: bend };
	};
	return { decay: [at(0, 0), at(0, 1), at(1, 0), at(1, 1)], load: share(0), avc: share(1) };
}

const mostSteps = 12;

/** Diode, reservoir and AVC line from sample to sample; what the last step found stands in the fields. */
export class DetectorStream {
	/** Volts at the load and on the AVC line, both counted positive. */
	loadV = 0;
	avcV = 0;
	/** The AVC line as it will be at the next sample if it goes on as it went. */
	avcAheadV = 0;
	/** Peak volts of the carrier at the anode. */
	amplitudeV = 1e-6;
	/** Current that the diode takes from its tank, as complex amplitude. */
	currentReA = 0;
	currentImA = 0;
	/**
	 * What the next step starts from: the anode's voltage without the diode's new current, and what that voltage gains by an ampere of it. Fields, not
	 * arguments: a sound asks for no memory at its samples.
	 */
	openReV = 0;
	openImV = 0;
	gainReOhm = 0;
	gainImOhm = 0;
	readonly #periodS: number;
	readonly #pulse = new DiodePulse();
	#pulseA = 1;
	#step: LoadStep;
	#charge = 1e-3;
	#lastCharge = 1e-3;
	#lastV = 1e-6;
	#meanA = 0;
	#lastA = 0;

	constructor(values: SetValues, periodS: number) {
		this.#periodS = periodS;
		this.#step = loadStep(values, periodS);
		this.#pulseA = new DiodeLaw(values).pulseA;
	}

	/** Takes up other values. */
	change(values: SetValues): void {
		this.#step = loadStep(values, this.#periodS);
		this.#pulseA = new DiodeLaw(values).pulseA;
	}

	/** One sample on. */
	advance(): void {
		const { openReV, openImV, gainReOhm, gainImOhm } = this;
		const { decay, load, avc } = this.#step;
		const past = load.nowOhm * this.#meanA + load.lastOhm * this.#lastA;
		const restV = decay[0] * this.loadV + decay[1] * this.avcV + past;
		const twicePulseA = 2 * this.#pulseA;
		const open = Math.sqrt(openReV * openReV + openImV * openImV);
		// The first try goes on as the last two samples went.
		let amplitude = Math.max(2 * this.amplitudeV - this.#lastV, this.amplitudeV / 2);
		let charge = Math.max(2 * this.#charge - this.#lastCharge, this.#charge / 2);
		let acrossRe = amplitude;
		let acrossIm = 0;
		let shareRe = 1;
		let shareIm = 0;
		// Newton's steps for amplitude and charge: |amplitude + ohm i| = |open| and the diode's law; the shape of the pulse counts as known in a step.
		for (let step = 0; step < mostSteps; step++) {
			const x = amplitude / diode.slopeV;
			const zero = besselI0Scaled(x);
			const ratio = besselI1Scaled(x) / zero;
			this.#pulse.x = x;
			this.#pulse.y = charge;
			this.#pulse.readHere();
			shareRe = ratio + this.#pulse.cosine;
			shareIm = this.#pulse.sine;
			const perChargeRe = twicePulseA * (gainReOhm * shareRe - gainImOhm * shareIm);
			const perChargeIm = twicePulseA * (gainReOhm * shareIm + gainImOhm * shareRe);
			acrossRe = amplitude + perChargeRe * charge;
			acrossIm = perChargeIm * charge;
			const across = Math.sqrt(acrossRe * acrossRe + acrossIm * acrossIm) + 1e-30;
			const missV = across - open;
			const byAmplitude = acrossRe / across;
			const byCharge = (acrossRe * perChargeRe + acrossIm * perChargeIm) / across;
			const held = Math.exp(-charge);
			const missLn =
				charge / 2 +
				Math.log((1 - held) * (this.#pulseA / (diode.scaleA * zero))) +
				this.#pulse.lnHeld +
				(restV + load.nextOhm * this.#pulseA * charge) / diode.slopeV -
				x;
			const lnByAmplitude = (this.#pulse.lnHeldByX - ratio) / diode.slopeV;
			const lnByCharge =
				(0.5 * (1 + held)) / (1 - held) + this.#pulse.lnHeldByY + (load.nextOhm * this.#pulseA) / diode.slopeV;
			const determinant = byAmplitude * lnByCharge - byCharge * lnByAmplitude;
			const moveA = (missV * lnByCharge - byCharge * missLn) / determinant;
			const moveY = (byAmplitude * missLn - lnByAmplitude * missV) / determinant;
			amplitude = amplitude > moveA ? amplitude - moveA : amplitude / 4;
			charge = moveY < 0 ? charge - Math.max(moveY, -2) : charge * Math.exp(-Math.min(moveY / charge, 4));
			charge = Math.max(charge, 1e-12);
			// The steps shrink by squares: after one this small the next would not be heard.
			if (Math.abs(moveA) < 1e-4 * amplitude + 1e-9 && Math.abs(moveY) < 1e-3 * charge) break;
		}
		const takenA = twicePulseA * charge;
		// The current has the direction of the anode's voltage, open / (amplitude + ohm i).
		const weight = acrossRe * acrossRe + acrossIm * acrossIm + 1e-60;
		const alongRe = (openReV * acrossRe + openImV * acrossIm) / weight;
		const alongIm = (openImV * acrossRe - openReV * acrossIm) / weight;
		this.currentReA = -takenA * (shareRe * alongRe - shareIm * alongIm);
		this.currentImA = -takenA * (shareRe * alongIm + shareIm * alongRe);
		const nextA = this.#pulseA * charge;
		const avcPastV = avc.nowOhm * this.#meanA + avc.lastOhm * this.#lastA;
		const avcV = decay[2] * this.loadV + decay[3] * this.avcV + avcPastV + avc.nextOhm * nextA;
		this.avcAheadV = 2 * avcV - this.avcV;
		this.avcV = avcV;
		this.loadV = restV + load.nextOhm * nextA;
		this.#lastA = this.#meanA;
		this.#meanA = nextA;
		this.#lastCharge = this.#charge;
		this.#charge = charge;
		this.#lastV = this.amplitudeV;
		this.amplitudeV = amplitude;
	}
}
