import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { ngspice } from '../../../test/ngspice.ts';
import { levelFunction, type ResponseModel, resonanceModel } from './response-model.ts';
import { stripModel } from './strip-model.ts';

const ifHz = 455e3;
const inductanceH = 1.1e-3;
const twoPi = 2 * Math.PI;

interface Winding {
	readonly frequencyHz: number;
	readonly q: number;
	/** Load across it in ohms. */
	readonly loadOhm: number;
}

/** Two IF transformers with a tube between them as ngspice sees them: series coil losses, loads across the windings, mutual coupling, grid-plate capacitance. */
function circuit(windings: readonly Winding[], couplings: readonly [number, number], feedbackF: number): string {
	const lines = windings.flatMap(({ frequencyHz, q, loadOhm }, place) => {
		const n = place + 1;
		const c = 1 / ((twoPi * frequencyHz) ** 2 * inductanceH);
		return [
			`C${n} ${n} 0 ${c}`,
			`L${n} ${n} ${n}x ${inductanceH}`,
			`R${n} ${n}x 0 ${(twoPi * frequencyHz * inductanceH) / q}`,
			...(Number.isFinite(loadOhm) ? [`G${n} ${n} 0 ${n} 0 ${1 / loadOhm}`] : []),
		];
	});
	return [
		'strip',
		'I1 0 1 AC 1m',
		...lines,
		`K1 L1 L2 ${couplings[0]}`,
		`K2 L3 L4 ${couplings[1]}`,
		'GT 3 0 2 0 2m',
		...(feedbackF > 0 ? [`CF 2 3 ${feedbackF}`] : []),
		'.control',
		'set numdgt=15',
		'ac lin 161 415k 495k',
		'wrdata OUT vdb(4)',
		'.endc',
		'.end',
	].join('\n');
}

/** The same circuit as parameters of the model. */
function parametersOf(windings: readonly Winding[], couplings: readonly [number, number], feedbackF: number) {
	const capacitances = windings.map(({ frequencyHz }) => 1 / ((twoPi * frequencyHz) ** 2 * inductanceH));
	const tuned = windings.map(({ frequencyHz, q, loadOhm }, place) => {
		const ohm = (twoPi * frequencyHz * inductanceH) / q;
		const own = capacitances[place] as number;
		// The tube's capacitance stands across both of its circuits.
		const whole = own + (place === 1 || place === 2 ? feedbackF : 0);
		const resonanceHz = Math.sqrt((1 + ohm / loadOhm) / (inductanceH * whole)) / twoPi;
		const half = (ohm / inductanceH + 1 / (loadOhm * whole)) / (2 * twoPi * ifHz);
		return { tuning: resonanceHz / ifHz - 1, halfWidth: Math.log(half), load: 1 / (loadOhm * whole * twoPi * ifHz) };
	});
	const fed = (2e-3 * feedbackF) / ((capacitances[1] as number) * (capacitances[2] as number)) / (twoPi * ifHz);
	return {
		loads: tuned.map(({ load }) => load) as unknown as [number, number, number, number],
		parameters: [
			...tuned.map((one) => one.tuning),
			...tuned.map((one) => one.halfWidth),
			...couplings.map(Math.log),
			fed,
		],
	};
}

function worstDifferenceDb(
	simulated: readonly (readonly number[])[],
	model: ResponseModel,
	parameters: readonly number[],
): number {
	const level = levelFunction(model, 0);
	const out = new Float64Array(model.size + 1);
	const differences = simulated.map(([frequencyHz, levelDb]) => {
		level(parameters, (frequencyHz as number) / ifHz, out);
		return (levelDb as number) - (out[0] as number);
	});
	expect(differences.length).toBe(161);
	return (Math.max(...differences) - Math.min(...differences)) / 2;
}

// ngspice is run live: an independent circuit simulator.
test('the strip agrees with a circuit simulator within 0.01 dB over 40 kc each way', () => {
	const random = createRandom(77);
	const mistuned = () => ifHz + 6e3 * random.gaussian();
	const q = () => 50 + 70 * random.uniform();
	const open = Number.POSITIVE_INFINITY;
	const cases: readonly (readonly [readonly Winding[], readonly [number, number], number, number])[] = [
		[[80, 80, 80, 80].map((each) => ({ frequencyHz: ifHz, q: each, loadOhm: open })), [0.0125, 0.0125], 0, 0.0001],
		[[1, 2, 3, 4].map(() => ({ frequencyHz: mistuned(), q: q(), loadOhm: open })), [0.009, 0.016], 0, 0.0001],
		[[800e3, open, 800e3, 300e3].map((loadOhm) => ({ frequencyHz: ifHz, q: 80, loadOhm })), [0.0125, 0.014], 0, 0.0001],
		[
			[800e3, open, 800e3, 300e3].map((loadOhm) => ({ frequencyHz: mistuned(), q: q(), loadOhm })),
			[0.011, 0.017],
			0,
			0.01,
		],
		// Feedback of 3 thousandths of a picofarad with 2 mS.
		[[1, 2, 3, 4].map(() => ({ frequencyHz: ifHz, q: 80, loadOhm: open })), [0.0125, 0.0125], 3e-15, 0.001],
		[[1, 2, 3, 4].map(() => ({ frequencyHz: mistuned(), q: q(), loadOhm: open })), [0.0125, 0.0125], 3e-15, 0.001],
	];
	for (const [windings, couplings, feedbackF, limitDb] of cases) {
		const { parameters, loads } = parametersOf(windings, couplings, feedbackF);
		const worstDb = worstDifferenceDb(ngspice(circuit(windings, couplings, feedbackF)), stripModel(loads), parameters);
		expect(worstDb).toBeLessThan(limitDb);
	}
});

function slopesAgree(model: ResponseModel, parameters: number[], toneRatio: number): void {
	const level = levelFunction(model, toneRatio);
	const out = new Float64Array(model.size + 1);
	const up = new Float64Array(model.size + 1);
	const down = new Float64Array(model.size + 1);
	for (const ratio of [0.985, 1, 1.012]) {
		level(parameters, ratio, out);
		for (let place = 0; place < model.size; place++) {
			const step = 1e-6;
			const moved = (by: number) => parameters.map((value, index) => (index === place ? value + by : value));
			level(moved(step), ratio, up);
			level(moved(-step), ratio, down);
			const slope = ((up[0] as number) - (down[0] as number)) / (2 * step);
			expect(Math.abs(slope - (out[1 + place] as number))).toBeLessThan(1e-3 + 1e-5 * Math.abs(slope));
		}
	}
}

test('every derivative of both models is the slope of its level, with and without a tone', () => {
	const tunings = [-0.004, 0.003, 0.001, -0.006];
	const halves = [0.006, 0.007, 0.0055, 0.0065].map(Math.log);
	for (const toneRatio of [0, 400 / ifHz]) {
		slopesAgree(stripModel(), [...tunings, ...halves, Math.log(0.012), Math.log(0.015), 1e-4], toneRatio);
		slopesAgree(resonanceModel(4), [...tunings, ...halves], toneRatio);
	}
});

// Exact envelope: the signal with its two sidebands, each through the strip, taken as a phasor over one cycle of the tone; its magnitude's fundamental by Fourier's sum.
test('the level of the tone is that of the exact envelope within 0.01 dB at 400 c and 30 %', () => {
	const model = stripModel();
	const random = createRandom(5);
	for (let strip = 0; strip < 12; strip++) {
		const tunings = [1, 2, 3, 4].map(() => (strip < 6 ? 0 : 0.012 * random.gaussian()));
		const halves = [1, 2, 3, 4].map(() => Math.log(1 / (2 * (50 + 70 * random.uniform()))));
		const parameters = [...tunings, ...halves, Math.log(0.0125), Math.log(0.012), 0];
		const response = (ratio: number): [number, number] => {
			const out = { re: new Float64Array(12), im: new Float64Array(12) };
			model.at(parameters, ratio, out);
			const size = Math.exp(out.re[0] as number);
			return [size * Math.cos(out.im[0] as number), size * Math.sin(out.im[0] as number)];
		};
		const level = levelFunction(model, 400 / ifHz);
		const out = new Float64Array(12);
		for (let offsetHz = -15e3; offsetHz <= 15e3; offsetHz += 2500) {
			const ratio = 1 + offsetHz / ifHz;
			const [c, u, l] = [response(ratio), response(ratio + 400 / ifHz), response(ratio - 400 / ifHz)];
			let cosine = 0;
			let sine = 0;
			const count = 64;
			for (let at = 0; at < count; at++) {
				const angleRad = (twoPi * at) / count;
				const [co, si] = [0.15 * Math.cos(angleRad), 0.15 * Math.sin(angleRad)];
				const re = c[0] + u[0] * co - u[1] * si + l[0] * co + l[1] * si;
				const im = c[1] + u[0] * si + u[1] * co - l[0] * si + l[1] * co;
				const envelope = Math.hypot(re, im);
				cosine += (2 / count) * envelope * Math.cos(angleRad);
				sine += (2 / count) * envelope * Math.sin(angleRad);
			}
			level(parameters, ratio, out);
			expect(Math.abs(20 * Math.log10(Math.hypot(cosine, sine) / 0.3) - (out[0] as number))).toBeLessThan(0.01);
		}
	}
});
